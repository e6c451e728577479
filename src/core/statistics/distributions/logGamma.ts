const HALF_LOG_TWO_PI = 0.9189385332046728;

/** Coefficients B(2k) / (2k (2k - 1)) of Stirling's series (Abramowitz & Stegun 1964, 6.1.41). */
const STIRLING = [
  1 / 12,
  -1 / 360,
  1 / 1260,
  -1 / 1680,
  1 / 1188,
  -691 / 360360,
  1 / 156,
  -3617 / 122400,
  43867 / 244188,
];

function stirlingSeries(x: number): number {
  const inverseSquare = 1 / (x * x);
  let sum = 0;
  for (let k = STIRLING.length - 1; k >= 0; k -= 1) sum = sum * inverseSquare + STIRLING[k]!;
  return sum / x;
}

/**
 * Natural logarithm of the gamma function for x > 0; absolute error near 1e-15 times the size of the result.
 *
 * Stirling's series from 12 up, the recurrence gamma(x + 1) = x gamma(x) below.
 */
export function logGamma(x: number): number {
  if (!(x > 0)) throw new RangeError(`logGamma: x must be above 0, got ${x}`);
  let shifted = x;
  let product = 1;
  while (shifted < 12) {
    product *= shifted;
    shifted += 1;
  }
  return (
    (shifted - 0.5) * Math.log(shifted) -
    shifted +
    HALF_LOG_TWO_PI +
    stirlingSeries(shifted) -
    Math.log(product)
  );
}

/**
 * Error of Stirling's leading formula: log gamma(x + 1) - [(x + 1/2) log x - x + log(2 pi) / 2], for x > 0.
 *
 * @see Loader 2000, "Fast and accurate computation of binomial probabilities"
 */
export function stirlingError(x: number): number {
  if (x >= 12) return stirlingSeries(x);
  return logGamma(x + 1) - ((x + 0.5) * Math.log(x) - x + HALF_LOG_TWO_PI);
}

/**
 * Deviance term x log(x / mean) + mean - x, without cancellation when x is near the mean; x, mean > 0.
 *
 * @see Loader 2000, function bd0
 */
export function devianceTerm(x: number, mean: number): number {
  const difference = x - mean;
  if (Math.abs(difference) >= 0.1 * (x + mean)) return x * Math.log(x / mean) + mean - x;
  const v = difference / (x + mean);
  let sum = difference * v;
  let power = 2 * x * v;
  for (let j = 1; j < 1000; j += 1) {
    power *= v * v;
    const next = sum + power / (2 * j + 1);
    if (next === sum) break;
    sum = next;
  }
  return sum;
}
