import { BATCH_PLAN, batchOutcome, messyBatch } from '../core/trial/messyBatch.ts';

/** Photos of mixed batches put to their plots. */
export interface PlacingResult {
  readonly batches: number;
  readonly photos: number;
  /** Photos that went to their plot; the rest are held. */
  readonly rightPercent: number;
  /** Photos that went to another plot or date and are certain there. */
  readonly wrong: number;
  /** The same among doubles, which wait for a person's choice. */
  readonly wrongDoubles: number;
  readonly worstBatchPercent: number;
  readonly millisecondsPerBatch: number;
}

/** Seeds that took no part in making the model of a walk. */
const FIRST_SEED = 3001;
const BATCHES = 100;

export function measurePlacing(): PlacingResult {
  const batches = Array.from({ length: BATCHES }, (_, index) => messyBatch(FIRST_SEED + index));
  const started = performance.now();
  const outcomes = batches.map((batch) => batchOutcome(batch, BATCH_PLAN));
  const millisecondsPerBatch = (performance.now() - started) / BATCHES;
  const photos = outcomes.reduce((sum, { ofPlots }) => sum + ofPlots, 0);
  const right = outcomes.reduce((sum, { share, ofPlots }) => sum + share * ofPlots, 0);
  const strayed = outcomes.flatMap(({ wrong }) => wrong);
  return {
    batches: BATCHES,
    photos,
    rightPercent: (100 * right) / photos,
    wrong: strayed.filter((story) => story.endsWith('certain')).length,
    wrongDoubles: strayed.filter((story) => story.endsWith('double')).length,
    worstBatchPercent: 100 * Math.min(...outcomes.map(({ share }) => share)),
    millisecondsPerBatch,
  };
}

export const placingText = (result: PlacingResult): string =>
  [
    `Photos put to plots: ${result.photos} photos in ${result.batches} mixed batches, ${result.rightPercent.toFixed(2)} % right, `,
    `${result.wrong} certain and wrong, ${result.wrongDoubles} wrong among the doubles, the rest held; worst batch ${result.worstBatchPercent.toFixed(1)} %, `,
    `${result.millisecondsPerBatch.toFixed(0)} ms a batch`,
  ].join('');
