import { compactLetters } from './compactLetters.ts';
import { type DunnettDistribution, dunnettDistribution } from './distributions/dunnett.ts';
import { studentizedRangeCritical, studentizedRangeUpperTail } from './distributions/studentizedRange.ts';
import { studentTCritical, studentTTwoSided } from './distributions/studentT.ts';
import { holmAdjusted } from './holm.ts';
import {
  covarianceFactor,
  differenceOf,
  type EstimableFunction,
  isEstimable,
  type LinearModelFit,
} from './linearModel/linearModel.ts';

/** Difference of two treatments, a - b, on the scale of the analysis. */
export interface PairComparison {
  readonly a: string;
  readonly b: string;
  readonly difference: number | null;
  readonly standardError: number | null;
  /** Smallest difference that is significant at alpha for this pair. */
  readonly leastSignificantDifference: number | null;
  readonly honestlySignificantDifference: number | null;
  readonly pLsd: number | null;
  /** Tukey-Kramer: exact for equal n, slightly careful for unequal n. */
  readonly pTukey: number | null;
  readonly pHolm: number | null;
  /** Simultaneous limits of the difference at 1 - alpha, Tukey-Kramer. */
  readonly low: number | null;
  readonly high: number | null;
}

/** A treatment against the control, on the scale of the analysis. Null where it cannot be computed. */
export interface DunnettComparison {
  /** Treatment - control. */
  readonly difference: number | null;
  readonly p: number | null;
  /** Simultaneous limits of the difference at 1 - alpha: they leave out 0 exactly where p is below alpha. */
  readonly low: number | null;
  readonly high: number | null;
}

export interface MeanSeparation {
  readonly pairs: readonly PairComparison[];
  readonly lettersLsd: readonly string[] | null;
  readonly lettersHsd: readonly string[] | null;
  readonly standardErrorOfDifference: number | null;
  readonly leastSignificantDifference: number | null;
  readonly honestlySignificantDifference: number | null;
  /** For each treatment; null for the control and where there is none. */
  readonly dunnett: readonly (DunnettComparison | null)[];
  readonly dunnettMethod: DunnettDistribution['method'] | null;
}

export interface SeparationInput {
  readonly fit: LinearModelFit;
  readonly names: readonly string[];
  readonly functions: readonly EstimableFunction[];
  readonly means: readonly (number | null)[];
  readonly meanSquareError: number | null;
  readonly alpha: number;
  readonly control: string | null;
  /** p of the F test of treatments, which protects the LSD. */
  readonly treatmentP: number | null;
}

/**
 * All pairs by LSD, Tukey-Kramer and Holm, letters, and Dunnett against the control.
 *
 * @see Tukey 1953; Kramer 1956, Biometrics 12:307; Fisher 1935 for the protection of the LSD by the F test
 */
export function comparePairs(input: SeparationInput): MeanSeparation {
  const { fit, names, functions, meanSquareError, alpha, treatmentP } = input;
  const df = fit.residualDegreesOfFreedom;
  const testable = meanSquareError !== null && meanSquareError > 0;
  const critical = testable
    ? {
        t: studentTCritical(alpha, df),
        q: names.length > 1 ? studentizedRangeCritical(alpha, names.length, df) : 0,
      }
    : null;
  const raw = names.flatMap((a, i) =>
    names.slice(i + 1).map((b, offset) => {
      const f = differenceOf(functions[i]!, functions[i + 1 + offset]!);
      if (!isEstimable(f)) return { a, b, difference: null, standardError: null, pLsd: null };
      const difference = fit.estimate(f);
      if (!critical) return { a, b, difference, standardError: null, pLsd: null };
      const standardError = Math.sqrt(meanSquareError! * covarianceFactor(f, f));
      return { a, b, difference, standardError, pLsd: studentTTwoSided(difference / standardError, df) };
    }),
  );
  const testedP = raw.flatMap(({ pLsd }) => (pLsd === null ? [] : [pLsd]));
  const holm = holmAdjusted(testedP)[Symbol.iterator]();
  const pairs = raw.map((pair): PairComparison => {
    if (pair.standardError === null || pair.pLsd === null || !critical) {
      return {
        ...pair,
        leastSignificantDifference: null,
        honestlySignificantDifference: null,
        pTukey: null,
        pHolm: null,
        low: null,
        high: null,
      };
    }
    const { difference, standardError } = pair;
    const honest = (critical.q / Math.SQRT2) * standardError;
    return {
      ...pair,
      leastSignificantDifference: critical.t * standardError,
      honestlySignificantDifference: honest,
      pTukey: studentizedRangeUpperTail(
        (Math.abs(difference) / standardError) * Math.SQRT2,
        names.length,
        df,
      ),
      pHolm: holm.next().value!,
      low: difference - honest,
      high: difference + honest,
    };
  });
  const shared = commonStandardError(pairs);
  const complete = pairs.length > 0 && pairs.every((pair) => pair.pLsd !== null);
  return {
    pairs,
    lettersLsd:
      complete && treatmentP !== null && treatmentP < alpha
        ? letters(input, pairs, (pair) => pair.pLsd!)
        : null,
    lettersHsd: complete ? letters(input, pairs, (pair) => pair.pTukey!) : null,
    standardErrorOfDifference: shared,
    leastSignificantDifference: shared === null || !critical ? null : critical.t * shared,
    honestlySignificantDifference: shared === null || !critical ? null : (critical.q / Math.SQRT2) * shared,
    ...dunnett(input),
  };
}

/** The standard error that all pairs share, or null. */
function commonStandardError(pairs: readonly PairComparison[]): number | null {
  const first = pairs[0]?.standardError ?? null;
  if (first === null) return null;
  const same = pairs.every(
    ({ standardError }) => standardError !== null && Math.abs(standardError - first) <= 1e-9 * first,
  );
  return same ? first : null;
}

/** Letters by falling mean; equal means keep the order of the names. */
function letters(
  { names, means, alpha }: SeparationInput,
  pairs: readonly PairComparison[],
  pOf: (pair: PairComparison) => number,
): string[] | null {
  const k = names.length;
  const order = names.map((_, index) => index).sort((a, b) => (means[b] ?? 0) - (means[a] ?? 0) || a - b);
  const at = (i: number, j: number): number => (i * (2 * k - i - 1)) / 2 + (j - i - 1);
  const found = compactLetters(k, (x, y) => {
    const i = Math.min(order[x]!, order[y]!);
    const j = Math.max(order[x]!, order[y]!);
    return pOf(pairs[at(i, j)]!) < alpha;
  });
  const byName = new Array<string>(k);
  order.forEach((index, position) => {
    byName[index] = found[position]!;
  });
  return byName;
}

const UNTESTED: DunnettComparison = { difference: null, p: null, low: null, high: null };

function dunnett({
  fit,
  names,
  functions,
  meanSquareError,
  alpha,
  control,
}: SeparationInput): Pick<MeanSeparation, 'dunnett' | 'dunnettMethod'> {
  const c = control === null ? -1 : names.indexOf(control);
  const none = { dunnett: names.map(() => null), dunnettMethod: null };
  if (c < 0 || names.length < 2) return none;
  const differences = names.map((_, index) =>
    index === c ? null : differenceOf(functions[index]!, functions[c]!),
  );
  const usable = differences.flatMap((f, index) => (f && isEstimable(f) ? [{ f, index }] : []));
  if (!meanSquareError || usable.length === 0) {
    return {
      dunnett: differences.map(
        (f) => f && { ...UNTESTED, difference: isEstimable(f) ? fit.estimate(f) : null },
      ),
      dunnettMethod: null,
    };
  }
  const lengths = usable.map(({ f }) => Math.sqrt(covarianceFactor(f, f)));
  const correlation = usable.map((a, i) =>
    usable.map((b, j) => (i === j ? 1 : covarianceFactor(a.f, b.f) / (lengths[i]! * lengths[j]!))),
  );
  const df = fit.residualDegreesOfFreedom;
  const distribution = dunnettDistribution(correlation, df);
  const critical = distribution.critical(alpha);
  const results: (DunnettComparison | null)[] = differences.map((f) => f && UNTESTED);
  usable.forEach(({ f, index }, i) => {
    const difference = fit.estimate(f);
    const standardError = Math.sqrt(meanSquareError) * lengths[i]!;
    results[index] = {
      difference,
      p: distribution.upperTail(Math.abs(difference / standardError)),
      low: difference - critical * standardError,
      high: difference + critical * standardError,
    };
  });
  return { dunnett: results, dunnettMethod: distribution.method };
}
