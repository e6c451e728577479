import { findTailPoint } from './findRoot.ts';
import { integratePanels } from './gaussLegendre.ts';
import { logTailTable } from './logTailTable.ts';
import { normalCdf, normalDensity } from './normal.ts';
import { studentizedTail } from './studentizedTail.ts';
import { checkDegreesOfFreedom } from './studentT.ts';

/**
 * log P(range of k standard normal variables > w).
 *
 * The tail k * integral of phi(z) [Phi(z)^(k-1) - (Phi(z) - Phi(z - w))^(k-1)] has only positive terms, so it keeps its
 * relative accuracy however small it is.
 */
function logRangeTail(k: number, w: number): number {
  const integrand = (z: number): number => {
    const below = normalCdf(z);
    if (below === 0) return 0;
    const share = Math.min(1, normalCdf(z - w) / below);
    if (share === 0) return 0;
    const power = (k - 1) * Math.log1p(-share);
    return (
      normalDensity(z) * below ** (k - 1) * (power === Number.NEGATIVE_INFINITY ? 1 : -Math.expm1(power))
    );
  };
  return Math.min(0, Math.log(k * integratePanels(integrand, w / 2 - 8.5, w / 2 + 9.5, 10)));
}

const tables = new Map<number, (w: number) => number>();

function rangeTable(k: number): (w: number) => number {
  let table = tables.get(k);
  if (!table) {
    table = logTailTable((w) => logRangeTail(k, w));
    tables.set(k, table);
  }
  return table;
}

/**
 * Probability that the studentized range of k means exceeds q.
 *
 * Agrees with scipy's quadrature to 1e-8 and better; R's ptukey is itself off at few degrees of freedom.
 *
 * @param k number of means, 2 or more
 * @param degreesOfFreedom of the error; above 0, may be infinite
 */
export function studentizedRangeUpperTail(q: number, k: number, degreesOfFreedom: number): number {
  checkDegreesOfFreedom(degreesOfFreedom);
  if (!(Number.isInteger(k) && k >= 2)) throw new RangeError(`number of means must be 2 or more, got ${k}`);
  return studentizedTail(rangeTable(k), q, degreesOfFreedom);
}

const criticalValues = new Map<string, number>();

/** The q that the studentized range of k means exceeds with probability alpha; kept once computed. */
export function studentizedRangeCritical(alpha: number, k: number, degreesOfFreedom: number): number {
  const key = `${alpha}/${k}/${degreesOfFreedom}`;
  let value = criticalValues.get(key);
  if (value === undefined) {
    value = findTailPoint((q) => studentizedRangeUpperTail(q, k, degreesOfFreedom), alpha, 3.5);
    if (criticalValues.size > 2000) criticalValues.clear();
    criticalValues.set(key, value);
  }
  return value;
}
