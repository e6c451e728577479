import { chiSquareCritical, chiSquareUpperTail } from './chiSquare.ts';
import { normalCdf, roughNormalQuantile } from './normal.ts';

/** Points of the lattice for a handful of comparisons; fewer when there are many, since the cost grows with m squared. */
const POINTS = 20_000;

/**
 * How much P(max |T_i| > t) under a correlation matrix exceeds the same under the product loadings[i] * loadings[j].
 *
 * Separation of variables on one lattice for both matrices, so that their common error cancels; no random numbers, so equal
 * input gives equal output.
 *
 * @see Genz 1992, J. Comput. Graph. Stat. 1:141; lattice of square roots of primes with the baker's transform
 */
export function correlatedTailDifference(
  correlation: readonly (readonly number[])[],
  loadings: readonly number[],
  degreesOfFreedom: number,
): (t: number) => number {
  const size = correlation.length;
  const wanted = lowerCholesky(correlation);
  const near = lowerCholesky(loadings.map((a, i) => loadings.map((b, j) => (i === j ? 1 : a * b))));
  const points = Math.max(500, Math.round(POINTS * Math.min(1, (6 / size) ** 1.5)));
  const steps = firstPrimes(size).map((prime) => Math.sqrt(prime) % 1);
  const scales = chiScales(degreesOfFreedom);
  const uniform = new Float64Array(size);
  const normal = new Float64Array(size);
  return (t) => {
    let sum = 0;
    for (let n = 1; n <= points; n += 1) {
      for (let j = 0; j < size; j += 1) {
        const x = (n * steps[j]!) % 1;
        uniform[j] = Math.min(1 - 1e-15, Math.max(1e-15, Math.abs(2 * x - 1)));
      }
      const bound = Math.abs(t) * scales(uniform[size - 1]!);
      sum +=
        insideProbability(near, bound, uniform, normal) - insideProbability(wanted, bound, uniform, normal);
    }
    return sum / points;
  };
}

function insideProbability(
  lower: readonly Float64Array[],
  bound: number,
  uniform: Float64Array,
  normal: Float64Array,
): number {
  let probability = 1;
  for (let i = 0; i < lower.length; i += 1) {
    const row = lower[i]!;
    let shift = 0;
    for (let j = 0; j < i; j += 1) shift += row[j]! * normal[j]!;
    const from = normalCdf((-bound - shift) / row[i]!);
    const to = normalCdf((bound - shift) / row[i]!);
    const width = to - from;
    if (!(width > 0)) return 0;
    probability *= width;
    if (i < lower.length - 1) {
      normal[i] = roughNormalQuantile(Math.min(1 - 1e-16, Math.max(1e-300, from + uniform[i]! * width)));
    }
  }
  return probability;
}

/** Inverse distribution of s = sqrt(chi-square / df), read from a table of 1000 points. */
function chiScales(degreesOfFreedom: number): (probability: number) => number {
  if (degreesOfFreedom === Number.POSITIVE_INFINITY) return () => 1;
  const low = Math.sqrt(
    degreesOfFreedom <= 2 ? 0 : chiSquareCritical(1 - 1e-9, degreesOfFreedom) / degreesOfFreedom,
  );
  const high = Math.sqrt(chiSquareCritical(1e-12, degreesOfFreedom) / degreesOfFreedom);
  const size = 1000;
  const cumulative = new Float64Array(size + 1);
  for (let i = 0; i <= size; i += 1) {
    const s = low + ((high - low) * i) / size;
    cumulative[i] = 1 - chiSquareUpperTail(degreesOfFreedom * s * s, degreesOfFreedom);
  }
  return (probability) => {
    let a = 0;
    let b = size;
    while (b - a > 1) {
      const middle = (a + b) >> 1;
      if (cumulative[middle]! <= probability) a = middle;
      else b = middle;
    }
    const span = cumulative[b]! - cumulative[a]!;
    const part = span > 0 ? Math.min(1, Math.max(0, (probability - cumulative[a]!) / span)) : 0.5;
    return low + ((high - low) * (a + part)) / size;
  };
}

function lowerCholesky(matrix: readonly (readonly number[])[]): Float64Array[] {
  const rows: Float64Array[] = [];
  for (let i = 0; i < matrix.length; i += 1) {
    const row = new Float64Array(matrix.length);
    for (let j = 0; j <= i; j += 1) {
      let sum = matrix[i]![j]!;
      for (let k = 0; k < j; k += 1) sum -= row[k]! * (rows[j]?.[k] ?? row[k]!);
      row[j] = i === j ? Math.sqrt(Math.max(sum, 1e-14)) : sum / rows[j]![j]!;
    }
    rows.push(row);
  }
  return rows;
}

function firstPrimes(count: number): number[] {
  const primes: number[] = [];
  for (let n = 2; primes.length < count; n += 1) if (primes.every((prime) => n % prime !== 0)) primes.push(n);
  return primes;
}
