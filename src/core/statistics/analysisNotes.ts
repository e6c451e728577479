import { levelsOf } from './linearModel/modelTerm.ts';
import type { MeanSeparation } from './meanSeparation.ts';
import { type Note, note } from './note.ts';
import type { PlotObservation } from './plotObservation.ts';
import type { TreatmentAnalysis } from './treatmentAnalysis.ts';

/** Error degrees of freedom under which a trial tells little (common advice of EPPO PP 1/152; from memory). */
export const FEW_ERROR_DEGREES_OF_FREEDOM = 12;

/** Residual checks speak up below this p; lower than the usual 0.05 because every date is checked four times. */
const CHECK_LEVEL = 0.01;

/** Everything a reader has to know about an analysis of one date. */
export function analysisNotes(
  plots: readonly PlotObservation[],
  analysis: Omit<TreatmentAnalysis, 'notes'>,
  context: {
    readonly control: string | null;
    readonly treatmentP: number | null;
    readonly separation: MeanSeparation;
  },
): Note[] {
  const names = analysis.treatments.map(({ treatment }) => treatment);
  const notes: Note[] = [];
  if (names.length === 1) notes.push(note('one-treatment', { treatment: names[0]! }));
  if (analysis.transform !== 'none') notes.push(note('transformed-scale', { transform: analysis.transform }));
  notes.push(...errorNotes(plots, analysis));
  notes.push(...layoutNotes(plots, analysis.design, names));
  const lost = analysis.treatments.filter(({ mean }) => mean === null).map(({ treatment }) => treatment);
  const lostPairs = analysis.pairs.filter((pair) => pair.difference === null).length;
  if (lost.length > 0 || lostPairs > 0)
    notes.push(note('not-estimable', { treatments: lost, pairs: lostPairs }));
  if (analysis.meanSquareError && analysis.pairs.length > 0 && analysis.standardErrorOfDifference === null) {
    notes.push(note('unequal-standard-errors'));
  }
  if (
    analysis.coefficientOfVariation === null &&
    analysis.meanSquareError !== null &&
    analysis.grandMean <= 0
  ) {
    notes.push(note('mean-not-positive', { mean: analysis.grandMean }));
  }
  if (context.treatmentP !== null && context.treatmentP >= analysis.alpha) {
    notes.push(note('letters-withheld', { p: context.treatmentP, alpha: analysis.alpha }));
  }
  const unknown = analysis.contrasts.filter(({ estimate }) => estimate === null).map(({ name }) => name);
  if (unknown.length > 0) notes.push(note('contrast-without-plots', { contrasts: unknown }));
  if (context.control === null) notes.push(note('control-not-named'));
  else if (!names.includes(context.control)) {
    notes.push(note('control-missing', { control: context.control, treatments: names }));
  }
  if (context.separation.dunnettMethod === 'corrected-product') notes.push(note('dunnett-corrected-product'));
  notes.push(...checkNotes(analysis));
  return notes;
}

function errorNotes(plots: readonly PlotObservation[], analysis: Omit<TreatmentAnalysis, 'notes'>): Note[] {
  const { errorDf, meanSquareError, treatments } = analysis;
  const notes: Note[] = [];
  if (treatments.every(({ n }) => n === 1)) notes.push(note('single-replicate'));
  if (errorDf === 0) return [...notes, note('no-error-degrees-of-freedom')];
  if (meanSquareError === 0) return [...notes, note('zero-error-variance')];
  const flat = treatments.filter(({ treatment, n }) => {
    const values = plots.filter((plot) => plot.treatment === treatment).map((plot) => plot.value);
    return n > 1 && values.every((value) => value === values[0]);
  });
  if (flat.length > 0) {
    notes.push(
      note('treatment-without-variation', {
        treatments: flat.map(({ treatment }) => treatment),
        values: flat.map(({ arithmeticMean }) => String(arithmeticMean)),
      }),
    );
  }
  if (errorDf < FEW_ERROR_DEGREES_OF_FREEDOM) {
    notes.push(note('few-error-degrees-of-freedom', { df: errorDf, wanted: FEW_ERROR_DEGREES_OF_FREEDOM }));
  }
  return notes;
}

/** Cells of treatment and block that are empty or filled more than once. */
function layoutNotes(
  plots: readonly PlotObservation[],
  design: TreatmentAnalysis['design'],
  names: readonly string[],
): Note[] {
  if (design !== 'randomized-complete-block') return [];
  const counts = new Map<string, number>();
  const key = (block: string | null, treatment: string): string => JSON.stringify([block, treatment]);
  for (const plot of plots) {
    const cell = key(plot.block, plot.treatment);
    counts.set(cell, (counts.get(cell) ?? 0) + 1);
  }
  const cells = levelsOf(plots.map((plot) => plot.block ?? '')).flatMap((block) =>
    names.map((treatment) => ({ block, treatment, count: counts.get(key(block, treatment)) ?? 0 })),
  );
  const describe = (cell: { block: string; treatment: string }): string =>
    `${cell.treatment} / ${cell.block}`;
  const missing = cells.filter(({ count }) => count === 0);
  const repeated = cells.filter(({ count }) => count > 1);
  return [
    ...(missing.length > 0
      ? [note('missing-plots', { count: missing.length, cells: missing.map(describe) })]
      : []),
    ...(repeated.length > 0
      ? [note('repeated-in-block', { count: repeated.length, cells: repeated.map(describe) })]
      : []),
  ];
}

function checkNotes({ residualChecks }: Omit<TreatmentAnalysis, 'notes'>): Note[] {
  const { shapiroWilk, equalVariance, largestResidual, nonAdditivity } = residualChecks;
  const notes: Note[] = [];
  if (shapiroWilk && shapiroWilk.p < CHECK_LEVEL)
    notes.push(note('residuals-not-normal', { p: shapiroWilk.p }));
  if (equalVariance && equalVariance.p < CHECK_LEVEL)
    notes.push(note('variances-differ', { p: equalVariance.p }));
  if (nonAdditivity && nonAdditivity.p < CHECK_LEVEL)
    notes.push(note('non-additive', { p: nonAdditivity.p }));
  if (largestResidual && largestResidual.p < CHECK_LEVEL) {
    notes.push(note('outlying-plot', { ...largestResidual }));
  }
  return notes;
}
