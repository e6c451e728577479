import { readFile } from 'node:fs/promises';
import { type CoverModel, fitCoverModel } from '../../src/core/classifier/coverModel.ts';
import { classifyWithModel, type TaughtClassification } from '../../src/core/classifier/taughtModel.ts';
import { DEFAULT_CLASSES } from '../../src/core/trial/defaultClasses.ts';
import { sharedPath } from '../support/sharedFolder.ts';
import {
  CLASS_IDS,
  coverError,
  isOdd,
  loadTaughtSamples,
  meanIou,
  type TaughtSample,
  teachingPhoto,
  teachingSets,
} from './taughtSamples.ts';

/** One photo measured by a model taught on itself or on others. */
export interface TaughtResult {
  readonly photo: string;
  readonly conditions: readonly string[];
  readonly seed: number;
  /** Plots taught on. */
  readonly taughtOn: readonly string[];
  readonly coverError: number;
  readonly meanIou: number;
  readonly flags: readonly string[];
  readonly reasons: readonly string[];
  /** Of the three shares: whether truth lies within 1.96 standard errors. */
  readonly withinInterval: readonly boolean[];
}

export interface TaughtSummary {
  readonly name: string;
  readonly results: number;
  readonly coverError: number;
  readonly largestCoverError: number;
  readonly meanIou: number;
  readonly flaggedShare: number;
  /** Of results that are not flagged; null where all are. */
  readonly unflaggedCoverError: number | null;
  readonly wrongByMoreThan5: number;
  readonly wrongAndFlagged: number;
  readonly intervalCoverage: number;
}

export interface TaughtReport {
  readonly summaries: readonly TaughtSummary[];
  readonly samePhoto: readonly TaughtResult[];
  readonly date: readonly TaughtResult[];
  readonly otherDate: readonly TaughtResult[];
  /** The best scripted model on the even plots, from the peer's own file; null where that is not on this machine. */
  readonly peer: {
    readonly coverError: number;
    readonly meanIou: number;
    readonly dateCoverError: number;
  } | null;
}

export interface TaughtAccuracyOptions {
  /** Draws of labelled pixels. @default [0, 1, 2, 3, 4] */
  readonly seeds?: readonly number[];
  /** The same, for models taught on a date; the first is used on other dates. @default [0, 1] */
  readonly dateSeeds?: readonly number[];
  /** Plots that are taught on and judged: constants were tuned on the odd ones. @default 'even' */
  readonly plots?: 'odd' | 'even';
}

/**
 * The taught model on the sample photos.
 *
 * Same photo: 200 labelled pixels a class drawn from the truth of the photo itself.
 * Date: 70 pixels a class from each of four plots, one in each block and of each treatment, used on the other twelve of the
 * date. Tuning used sets of odd plots judged on odd plots; the report uses the four sets of even plots that there are.
 * Other date: models of one date used on the other dates, to see what is flagged.
 */
export async function measureTaughtAccuracy(options: TaughtAccuracyOptions = {}): Promise<TaughtReport> {
  const { seeds = [0, 1, 2, 3, 4], dateSeeds = [0, 1], plots = 'even' } = options;
  const samples = await loadTaughtSamples();
  const judged = samples.filter((sample) => isOdd(sample) === (plots === 'odd'));
  const samePhoto: TaughtResult[] = [];
  for (const sample of judged) {
    for (const seed of seeds) samePhoto.push(await judge(teach([sample], 200, seed), [sample], sample, seed));
  }
  const date: TaughtResult[] = [];
  const otherDate: TaughtResult[] = [];
  const dates = [...new Set(samples.map(({ ratingDate }) => ratingDate))];
  for (const ratingDate of dates) {
    const sets = teachingSets(judged.filter((sample) => sample.ratingDate === ratingDate));
    for (const set of sets) {
      for (const seed of dateSeeds) {
        const model = teach(set, 70, seed);
        for (const sample of samples) {
          if (set.includes(sample)) continue;
          if (sample.ratingDate === ratingDate) date.push(await judge(model, set, sample, seed));
          else if (seed === dateSeeds[0] && judged.includes(sample)) {
            otherDate.push(await judge(model, set, sample, seed));
          }
        }
      }
    }
  }
  const judgedNames = new Set(judged.map(({ name }) => name));
  const judgedDate = date.filter(({ photo }) => judgedNames.has(photo));
  return {
    samePhoto,
    date,
    otherDate,
    summaries: [
      summarise(`same photo, ${plots} plots`, samePhoto),
      ...byDate(samePhoto),
      summarise(`date, taught on four ${plots} plots, the other twelve`, date),
      summarise(`the same, judged on ${plots} plots only`, judgedDate),
      ...byDate(date),
      ...byCondition(date),
      summarise('model of another date', otherDate),
    ],
    peer: await peerResults(),
  };
}

/** The report as a table for people. */
export function taughtTable({ summaries, peer }: TaughtReport): string {
  const lines = [
    'Taught model (cover error: mean over classes, percentage points)',
    '',
    `${''.padEnd(50)}    n  error largest mean IoU flagged  error unflagged  >5 points: flagged/all  in interval`,
  ];
  for (const s of summaries) {
    lines.push(
      [
        s.name.padEnd(50),
        String(s.results).padStart(5),
        s.coverError.toFixed(2).padStart(7),
        s.largestCoverError.toFixed(1).padStart(7),
        s.meanIou.toFixed(3).padStart(8),
        `${(100 * s.flaggedShare).toFixed(0)} %`.padStart(7),
        (s.unflaggedCoverError?.toFixed(2) ?? 'none').padStart(16),
        `${s.wrongAndFlagged}/${s.wrongByMoreThan5}`.padStart(23),
        `${(100 * s.intervalCoverage).toFixed(0)} %`.padStart(12),
      ].join(' '),
    );
  }
  lines.push(
    '',
    peer
      ? `best peer, even plots: same photo ${peer.coverError.toFixed(2)} points, mean IoU ${peer.meanIou.toFixed(3)}; date ${peer.dateCoverError.toFixed(2)} points`
      : 'peer: not on this machine',
  );
  return lines.join('\n');
}

function teach(samples: readonly TaughtSample[], pixelsPerClass: number, seed: number): CoverModel {
  const fit = fitCoverModel(
    samples.map((sample) => teachingPhoto(sample, pixelsPerClass, seed)),
    CLASS_IDS,
  );
  if (!fit.ok) throw new Error(`no model: ${fit.problem.code}`);
  return fit.model;
}

async function judge(
  model: CoverModel,
  taughtOn: readonly TaughtSample[],
  sample: TaughtSample,
  seed: number,
): Promise<TaughtResult> {
  const { raster, area, features, truth, truthLabels } = sample;
  const result: TaughtClassification = await classifyWithModel(
    { raster, area, classes: DEFAULT_CLASSES, neutralGains: null },
    model,
    { features, photoSha256: sample.name },
  );
  const estimated = result.coverFraction.map((share) => 100 * share);
  return {
    photo: sample.name,
    conditions: sample.conditions,
    seed,
    taughtOn: taughtOn.map(({ plot }) => plot),
    coverError: coverError(estimated, truth),
    meanIou: meanIou(result.mask.labels, truthLabels, CLASS_IDS.length),
    flags: result.flags,
    reasons: result.reasons.map(({ code }) => code),
    withinInterval: estimated.map(
      (value, c) => Math.abs(value - truth[c]!) <= 196 * (result.standardError?.[c] ?? 0),
    ),
  };
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

function summarise(name: string, results: readonly TaughtResult[]): TaughtSummary {
  const unflagged = results.filter(({ flags }) => flags.length === 0);
  const wrong = results.filter((result) => result.coverError > 5);
  return {
    name,
    results: results.length,
    coverError: mean(results.map((result) => result.coverError)),
    largestCoverError: Math.max(...results.map((result) => result.coverError)),
    meanIou: mean(results.map((result) => result.meanIou)),
    flaggedShare: 1 - unflagged.length / results.length,
    unflaggedCoverError: unflagged.length === 0 ? null : mean(unflagged.map((result) => result.coverError)),
    wrongByMoreThan5: wrong.length,
    wrongAndFlagged: wrong.filter(({ flags }) => flags.length > 0).length,
    intervalCoverage: mean(results.flatMap(({ withinInterval }) => withinInterval.map(Number))),
  };
}

function byDate(results: readonly TaughtResult[]): TaughtSummary[] {
  const dates = [...new Set(results.map(({ photo }) => photo.slice(0, 10)))].sort();
  return dates.map((date) =>
    summarise(
      `  ${date}`,
      results.filter(({ photo }) => photo.startsWith(date)),
    ),
  );
}

function byCondition(results: readonly TaughtResult[]): TaughtSummary[] {
  const conditions = [...new Set(results.flatMap((result) => result.conditions))].sort();
  return conditions.map((condition) =>
    summarise(
      `  ${condition}`,
      results.filter((result) => result.conditions.includes(condition)),
    ),
  );
}

async function peerResults(): Promise<TaughtReport['peer']> {
  const path = sharedPath('peer/peer.json');
  if (!path) return null;
  const { summaryEvenPlots } = JSON.parse(await readFile(path, 'utf8')) as {
    summaryEvenPlots: Record<string, Record<string, { coverError: number; meanIou: number }>>;
  };
  const taught = Object.values(summaryEvenPlots.taught!);
  return {
    coverError: Math.min(...taught.map((model) => model.coverError)),
    meanIou: Math.max(...taught.map((model) => model.meanIou)),
    dateCoverError: Math.min(...Object.values(summaryEvenPlots.date!).map((model) => model.coverError)),
  };
}
