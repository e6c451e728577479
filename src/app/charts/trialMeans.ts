import { compareNames } from '../../core/statistics/plotObservation.ts';
import type { TreatmentAnalysis } from '../../core/statistics/treatmentAnalysis.ts';
import type { VariableWords } from '../../core/text/compare.ts';
import type { Treatment } from '../../core/trial/treatment.ts';
import type { ChartTreatment, Quantity, TreatmentMean } from './chartTypes.ts';

interface NamedTreatments {
  readonly treatments: readonly Pick<Treatment, 'number' | 'name'>[];
}

/** Treatments as charts name them, by number. */
export function chartTreatments({ treatments }: NamedTreatments): readonly ChartTreatment[] {
  return treatments
    .map(({ number, name }) => ({ treatment: String(number), label: name }))
    .sort((a, b) => compareNames(a.treatment, b.treatment));
}

/** Whether plots vary: where they do not, errors and limits of 0 would claim what nobody knows. */
export const hasError = ({ meanSquareError }: TreatmentAnalysis): boolean =>
  meanSquareError !== null && meanSquareError > 0;

/** Means as charts take them; treatments without a value are gaps. */
export function chartMeans(plan: NamedTreatments, analysis: TreatmentAnalysis): readonly TreatmentMean[] {
  const known = hasError(analysis);
  return chartTreatments(plan).map(({ treatment, label }) => {
    const own = analysis.treatments.find((one) => one.treatment === treatment);
    return {
      treatment,
      label,
      mean: own?.mean ?? null,
      standardError: known ? (own?.standardError ?? null) : null,
      low: known ? (own?.low ?? null) : null,
      high: known ? (own?.high ?? null) : null,
      n: own?.n ?? 0,
      letters: own?.lettersHsd ?? null,
    };
  });
}

export const quantityOf = ({ name, scale }: VariableWords): Quantity => ({ name, unit: scale });
