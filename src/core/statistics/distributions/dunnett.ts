import { findTailPoint } from './findRoot.ts';
import { integratePanels } from './gaussLegendre.ts';
import { logTailTable } from './logTailTable.ts';
import { correlatedTailDifference } from './multivariateT.ts';
import { normalCdf, normalDensity } from './normal.ts';
import { productCorrelation } from './productCorrelation.ts';
import { studentizedTail } from './studentizedTail.ts';
import { checkDegreesOfFreedom } from './studentT.ts';

/** Below this largest deviation a correlation matrix counts as of product form; the p then errs by less than 1e-7. */
const EXACT = 1e-8;

/** Tail probabilities of the largest of several correlated t statistics. */
export interface DunnettDistribution {
  /** P(max |T_i| > t), two-sided. */
  readonly upperTail: (t: number) => number;
  /** The t that max |T_i| exceeds with probability alpha. */
  readonly critical: (alpha: number) => number;
  /** `quadrature` where correlations are products l_i l_j; otherwise a corrected product (absolute error below 1e-4). */
  readonly method: 'quadrature' | 'corrected-product';
}

/**
 * Two-sided distribution of Dunnett's statistic for comparisons with one control.
 *
 * Correlations of product form, l_i l_j, cover one-way layouts with any n and complete blocks; the probability is then a
 * double integral, computed to about 1e-10 relative. Missing plots in blocks can break the form: then the nearest product
 * is integrated and the difference between the two matrices is added by a lattice rule on common points.
 *
 * @param correlation of the differences from the control, m x m
 * @param degreesOfFreedom of the error
 * @see Dunnett 1955, J. Am. Stat. Assoc. 50:1096; Genz & Bretz 2009 for the lattice rule
 */
export function dunnettDistribution(
  correlation: readonly (readonly number[])[],
  degreesOfFreedom: number,
): DunnettDistribution {
  checkDegreesOfFreedom(degreesOfFreedom);
  const { loadings, deviation } = productCorrelation(correlation);
  const product = (t: number): number => dunnettUpperTail(t, loadings, degreesOfFreedom);
  const productCritical = (alpha: number): number => findTailPoint(product, alpha, 2.5);
  if (deviation < EXACT) return { upperTail: product, critical: productCritical, method: 'quadrature' };
  const exact = correlatedTailDifference(correlation, loadings, degreesOfFreedom);
  const correction = correlation.length <= CORRECTION_NODES ? exact : smoothed(exact);
  return {
    method: 'corrected-product',
    upperTail: (t) => Math.min(1, Math.max(0, product(t) + correction(Math.abs(t)))),
    critical: (alpha) => correctedCritical(productCritical, correction, alpha),
  };
}

/** Every look at the correction is dear and it hardly changes with t: the level is moved by it, a few times. */
function correctedCritical(
  productCritical: (alpha: number) => number,
  correction: (t: number) => number,
  alpha: number,
): number {
  let t = productCritical(alpha);
  for (let step = 0; step < 4; step += 1) {
    const next = productCritical(Math.max(alpha - correction(t), alpha / 2));
    if (Math.abs(next - t) < 1e-9) return next;
    t = next;
  }
  return t;
}

/** Beyond this t the two matrices no longer differ in any digit that is shown. */
const LARGEST_T = 8;
const CORRECTION_NODES = 14;

/** A small smooth correction, 0 at both ends, read from a polynomial through a few values instead of computed each time. */
function smoothed(correction: (t: number) => number): (t: number) => number {
  const nodes = Array.from(
    { length: CORRECTION_NODES },
    (_, i) => (LARGEST_T / 2) * (1 - Math.cos((Math.PI * (i + 0.5)) / CORRECTION_NODES)),
  );
  const values = nodes.map(correction);
  const weights = nodes.map(
    (_, i) => (i % 2 === 0 ? 1 : -1) * Math.sin((Math.PI * (i + 0.5)) / CORRECTION_NODES),
  );
  return (t) => {
    if (t >= LARGEST_T) return 0;
    let top = 0;
    let bottom = 0;
    for (let i = 0; i < nodes.length; i += 1) {
      if (t === nodes[i]) return values[i]!;
      const weight = weights[i]! / (t - nodes[i]!);
      top += weight * values[i]!;
      bottom += weight;
    }
    return top / bottom;
  };
}

/**
 * P(max |T_i| > t) for t statistics with one error estimate and correlations loadings[i] * loadings[j].
 *
 * @param loadings each within 0 up to 1, 1 excluded
 */
export function dunnettUpperTail(t: number, loadings: readonly number[], degreesOfFreedom: number): number {
  checkDegreesOfFreedom(degreesOfFreedom);
  return studentizedTail(loadingTable(loadings), Math.abs(t), degreesOfFreedom);
}

/** The t that max |T_i| exceeds with probability alpha. */
export function dunnettCritical(
  alpha: number,
  loadings: readonly number[],
  degreesOfFreedom: number,
): number {
  return findTailPoint((t) => dunnettUpperTail(t, loadings, degreesOfFreedom), alpha, 2.5);
}

const tables = new Map<string, (w: number) => number>();

function loadingTable(loadings: readonly number[]): (w: number) => number {
  const counts = new Map<number, number>();
  for (const loading of [...loadings].sort((a, b) => a - b)) {
    if (!(Math.abs(loading) < 1)) throw new RangeError(`loadings must be within -1..1, got ${loading}`);
    const rounded = Math.round(Math.abs(loading) * 1e12) / 1e12;
    counts.set(rounded, (counts.get(rounded) ?? 0) + 1);
  }
  const key = [...counts].join(';');
  let table = tables.get(key);
  if (!table) {
    const groups = [...counts];
    table = logTailTable((w) => logLargestTail(groups, w));
    if (tables.size > 200) tables.clear();
    tables.set(key, table);
  }
  return table;
}

/** log P(max |Z_i| > w), conditional on the shared normal variable the Z_i are independent. */
function logLargestTail(groups: readonly (readonly [loading: number, count: number])[], w: number): number {
  const scaled = groups.map(([loading, count]) => {
    const root = Math.sqrt(1 - loading * loading);
    return { slope: loading / root, bound: w / root, count };
  });
  const largest = Math.max(...groups.map(([loading]) => loading));
  const integrand = (z: number): number => {
    let logInside = 0;
    for (const { slope, bound, count } of scaled) {
      const outside = normalCdf(slope * z - bound) + normalCdf(-slope * z - bound);
      logInside += count * Math.log1p(-Math.min(1, outside));
    }
    return normalDensity(z) * -Math.expm1(logInside);
  };
  const high = largest * w + 9;
  const panels = Math.ceil(high / Math.min(1.5, Math.max(0.15, 6 * Math.sqrt(1 - largest * largest))));
  return Math.min(0, Math.log(2 * integratePanels(integrand, 0, high, panels)));
}
