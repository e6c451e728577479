import { judgedPoints } from '../../../core/point-grid/callCounts.ts';
import { type CountedPhoto, countsOf } from '../../../core/point-grid/countedPhoto.ts';
import { estimateVarianceComponents } from '../../../core/statistics/planning.ts';
import type { CoverClass } from '../../../core/trial/coverClass.ts';
import type { FrameSpread } from './pointsState.ts';

/**
 * How much frames of a plot differ in what one observer counted, for the class where they differ most. Treatments need not be
 * known for this.
 *
 * @returns null where no plot was counted in two frames
 */
export function frameSpreadOf(
  counted: readonly CountedPhoto[],
  observer: string,
  classes: readonly CoverClass[],
): FrameSpread | null {
  const classIds = classes.map(({ id }) => id);
  const judged = counted
    .filter(({ plot }) => plot !== null)
    .flatMap((photo) => {
      const counts = countsOf(photo, observer, classIds);
      return judgedPoints(counts) > 0 ? [{ photo, counts }] : [];
    });
  let widest: FrameSpread | null = null;
  for (const [index, { name }] of classes.entries()) {
    const components = estimateVarianceComponents(
      judged.map(({ photo, counts }) => ({
        plot: `${photo.ratingDate} ${photo.plot}`,
        block: null,
        row: null,
        column: null,
        treatment: photo.treatment ?? '',
        value: (100 * counts.hits[index]!) / judgedPoints(counts),
        points: judgedPoints(counts),
      })),
      'completely-randomized',
    );
    const plots = new Set(judged.map(({ photo }) => `${photo.ratingDate} ${photo.plot}`)).size;
    if (components && components.frame >= (widest?.frame ?? 0)) {
      widest = {
        ...components,
        className: name,
        framesPerPlot: Math.max(1, Math.round(judged.length / plots)),
      };
    }
  }
  return widest;
}
