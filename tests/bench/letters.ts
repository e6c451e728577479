import { type CoverModel, fitCoverModel } from '../../src/core/classifier/coverModel.ts';
import { classifyWithModel } from '../../src/core/classifier/taughtModel.ts';
import { writtenPercent } from '../../src/core/cover/writtenPercent.ts';
import {
  type Comparison,
  compareTrial,
  type RatedObservation,
} from '../../src/core/statistics/compareTrial.ts';
import type { TreatmentAnalysis } from '../../src/core/statistics/treatmentAnalysis.ts';
import { DEFAULT_CLASSES } from '../../src/core/trial/defaultClasses.ts';
import { measureAccuracy } from './accuracy.ts';
import {
  CLASS_IDS,
  isOdd,
  loadTaughtSamples,
  type TaughtSample,
  teachingPhoto,
  teachingSets,
} from './taughtSamples.ts';

/** The analysis of one date (or of the mean over time), from truth and from what was measured. */
export interface LettersRow {
  readonly model: 'start model' | 'taught';
  readonly what: string;
  /** By treatment 1, 2, 3, 4. */
  readonly truth: AnalysisShown;
  readonly measured: AnalysisShown;
  readonly sameLetters: boolean;
  /** Whether Dunnett's test comes to the same for every treatment. */
  readonly sameAgainstControl: boolean;
}

interface AnalysisShown {
  readonly means: readonly number[];
  readonly letters: readonly string[];
  readonly meanSquareError: number;
  /** Treatments that differ from the control. */
  readonly differing: readonly string[];
}

const CONTROL = '1';
const WEEDS = CLASS_IDS.indexOf('weedy-grass');
const PIXELS_PER_CLASS = 70;

/**
 * Whether weedy grass cover as measured leads to the letters that true cover leads to: the sample trial, all 16 plots of each
 * date, by the start model and by one model a date taught on four plots, as the command line does with strokes.
 */
export async function compareLetters(): Promise<readonly LettersRow[]> {
  const samples = await loadTaughtSamples();
  const truth = analysed(samples, (sample) => sample.truth[WEEDS]!);

  const { photos } = await measureAccuracy({ openDataset: false });
  const byStart = new Map(photos.map(({ photo, estimated }) => [nameOf(photo), estimated[WEEDS]!]));
  const start = analysed(samples, ({ name }) => byStart.get(name)!);

  const byTaught = new Map<string, number>();
  for (const ratingDate of new Set(samples.map((sample) => sample.ratingDate))) {
    const own = samples.filter((sample) => sample.ratingDate === ratingDate);
    const model = taughtModel(teachingSets(own.filter((sample) => !isOdd(sample)))[0]!);
    for (const { name, raster, area, features } of own) {
      const request = { raster, area, classes: DEFAULT_CLASSES, neutralGains: null };
      const { coverFraction } = await classifyWithModel(request, model, { features, photoSha256: name });
      byTaught.set(name, 100 * coverFraction[WEEDS]!);
    }
  }
  const taught = analysed(samples, ({ name }) => byTaught.get(name)!);
  return [...rowsOf('start model', truth, start), ...rowsOf('taught', truth, taught)];
}

/** "photos/2027-04-12_101.jpg" is the sample "2027-04-12_101". */
const nameOf = (photo: string): string => /(\d{4}-\d\d-\d\d_\d+)/.exec(photo)![1]!;

function taughtModel(set: readonly TaughtSample[]): CoverModel {
  const fit = fitCoverModel(
    set.map((sample) => teachingPhoto(sample, PIXELS_PER_CLASS, 0)),
    CLASS_IDS,
  );
  if (!fit.ok) throw new Error(`no model: ${fit.problem.code}`);
  return fit.model;
}

function analysed(samples: readonly TaughtSample[], percentOf: (sample: TaughtSample) => number): Comparison {
  const observations = samples.map(
    (sample): RatedObservation => ({
      plot: sample.plot,
      treatment: sample.treatment,
      block: String(sample.block),
      row: null,
      column: null,
      ratingDate: sample.ratingDate,
      classId: 'weedy-grass',
      value: writtenPercent(percentOf(sample) / 100),
    }),
  );
  return compareTrial(observations, { design: 'randomized-complete-block', control: CONTROL });
}

function rowsOf(model: LettersRow['model'], truth: Comparison, measured: Comparison): LettersRow[] {
  const pairs = truth.analyses.map(
    ({ ratingDate, analysis }, index) => [ratingDate, analysis, measured.analyses[index]!.analysis] as const,
  );
  const area = ({ overDates: [own] }: Comparison) => own!.overDates.area!.analysis;
  return [...pairs, ['mean over time', area(truth), area(measured)] as const].map(([what, a, b]) => {
    const [one, other] = [shownOf(a), shownOf(b)];
    return {
      model,
      what,
      truth: one,
      measured: other,
      sameLetters: String(one.letters) === String(other.letters),
      sameAgainstControl: String(one.differing) === String(other.differing),
    };
  });
}

const shownOf = ({ treatments, meanSquareError, alpha }: TreatmentAnalysis): AnalysisShown => ({
  means: treatments.map(({ mean }) => mean!),
  letters: treatments.map(({ lettersHsd }) => lettersHsd!),
  meanSquareError: meanSquareError!,
  differing: treatments
    .filter(({ dunnett }) => dunnett?.p != null && dunnett.p < alpha)
    .map((own) => own.treatment),
});

export function lettersTable(rows: readonly LettersRow[]): string {
  const shown = ({ means, letters }: AnalysisShown) =>
    means.map((mean, index) => `${mean.toFixed(1)} ${letters[index]}`.padEnd(9)).join(' ');
  const lines = rows.map(({ model, what, truth, measured, sameLetters, sameAgainstControl }) =>
    [
      model.padEnd(12),
      what.padEnd(15),
      shown(truth),
      shown(measured),
      sameLetters ? 'same   ' : 'other  ',
      sameAgainstControl ? 'same' : `other: ${truth.differing} / ${measured.differing}`,
      `error ${truth.meanSquareError.toFixed(1)} / ${measured.meanSquareError.toFixed(1)}`,
    ].join('  '),
  );
  return [
    'Weedy grass cover of treatments 1 to 4, Tukey letters: true, measured, letters, against control (Dunnett)',
    ...lines,
  ].join('\n');
}
