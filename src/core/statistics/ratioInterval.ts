/** Estimates of a numerator and a denominator with their variances and covariance. */
export interface RatioParts {
  readonly numerator: number;
  readonly denominator: number;
  readonly numeratorVariance: number;
  readonly denominatorVariance: number;
  readonly covariance: number;
}

export interface RatioInterval {
  readonly low: number;
  readonly high: number;
}

/**
 * Fieller's interval of a ratio of two means; null when the denominator is not significantly different from 0, where the
 * interval has no end.
 *
 * @param critical two-sided t value
 * @see Fieller 1954, J. R. Stat. Soc. B 16:175
 */
export function fiellerInterval(parts: RatioParts, critical: number): RatioInterval | null {
  const { numerator, denominator } = parts;
  const square = critical * critical;
  const a = denominator * denominator - square * parts.denominatorVariance;
  if (!(a > 0)) return null;
  const b = numerator * denominator - square * parts.covariance;
  const c = numerator * numerator - square * parts.numeratorVariance;
  const root = Math.sqrt(Math.max(0, b * b - a * c));
  return { low: (b - root) / a, high: (b + root) / a };
}

/** Interval of a ratio by the delta method (first-order propagation of error), symmetric about the estimate. */
export function deltaInterval(parts: RatioParts, critical: number): RatioInterval {
  const ratio = parts.numerator / parts.denominator;
  const variance =
    (parts.numeratorVariance - 2 * ratio * parts.covariance + ratio * ratio * parts.denominatorVariance) /
    (parts.denominator * parts.denominator);
  const reach = critical * Math.sqrt(Math.max(0, variance));
  return { low: ratio - reach, high: ratio + reach };
}
