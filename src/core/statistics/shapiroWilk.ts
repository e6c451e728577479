import { normalCdf, normalQuantile } from './distributions/normal.ts';

/** Shapiro-Wilk statistic and its p. */
export interface ShapiroWilk {
  readonly w: number;
  readonly p: number;
}

const C1 = [0, 0.221157, -0.147981, -2.07119, 4.434685, -2.706056];
const C2 = [0, 0.042981, -0.293762, -1.752461, 5.682633, -3.582633];
const C3 = [0.544, -0.39978, 0.025054, -6.714e-4];
const C4 = [1.3822, -0.77857, 0.062767, -0.0020322];
const C5 = [-1.5861, -0.31082, -0.083751, 0.0038915];
const C6 = [-0.4803, -0.082676, 0.0030302];
const G = [-2.273, 0.459];

/**
 * Shapiro-Wilk test of normality, for residuals of 3 to 5000 plots; null outside that or without variation.
 *
 * @see Royston 1995, algorithm AS R94, Appl. Stat. 44:547 (the one R uses)
 */
export function shapiroWilk(values: readonly number[]): ShapiroWilk | null {
  const n = values.length;
  if (n < 3 || n > 5000) return null;
  const sorted = [...values].sort((a, b) => a - b);
  if (!(sorted[n - 1]! - sorted[0]! > 1e-19)) return null;
  const weights = lowerWeights(n);
  const mean = sorted.reduce((sum, value) => sum + value, 0) / n;
  let top = 0;
  let total = 0;
  for (let i = 0; i < n; i += 1) {
    const half = Math.floor(n / 2);
    const weight = i < half ? -weights[i]! : n - 1 - i < half ? weights[n - 1 - i]! : 0;
    top += weight * (sorted[i]! - mean);
    total += (sorted[i]! - mean) ** 2;
  }
  const w = Math.min(1, top ** 2 / total);
  return { w, p: upperTail(w, n) };
}

/** Weights of the lower half of the order statistics, positive. */
function lowerWeights(n: number): number[] {
  if (n === 3) return [Math.SQRT1_2];
  const half = Math.floor(n / 2);
  const m = Array.from({ length: half }, (_, i) => normalQuantile((i + 1 - 0.375) / (n + 0.25)));
  const sum = 2 * m.reduce((total, value) => total + value ** 2, 0);
  const root = 1 / Math.sqrt(n);
  const first = polynomial(C1, root) - m[0]! / Math.sqrt(sum);
  if (n <= 5) {
    const scale = Math.sqrt((sum - 2 * m[0]! ** 2) / (1 - 2 * first ** 2));
    return [first, ...m.slice(1).map((value) => -value / scale)];
  }
  const second = polynomial(C2, root) - m[1]! / Math.sqrt(sum);
  const scale = Math.sqrt((sum - 2 * m[0]! ** 2 - 2 * m[1]! ** 2) / (1 - 2 * first ** 2 - 2 * second ** 2));
  return [first, second, ...m.slice(2).map((value) => -value / scale)];
}

function upperTail(w: number, n: number): number {
  if (n === 3) {
    const p = (6 / Math.PI) * (Math.asin(Math.sqrt(w)) - Math.asin(Math.sqrt(0.75)));
    return Math.max(0, Math.min(1, p));
  }
  const y = Math.log(1 - w);
  const logN = Math.log(n);
  if (n <= 11) {
    const gamma = polynomial(G, n);
    if (y >= gamma) return 1e-99;
    return normalCdf((Math.log(gamma - y) + polynomial(C3, n)) / Math.exp(polynomial(C4, n)));
  }
  return normalCdf(-(y - polynomial(C5, logN)) / Math.exp(polynomial(C6, logN)));
}

function polynomial(coefficients: readonly number[], x: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);
}
