import { FEATURES } from '../features/featurePlanes.ts';
import {
  type ClassStatistics,
  classStatistics,
  logDensity,
  normalDensity,
  pooledCovariance,
  shrunkCovariance,
} from './discriminant.ts';
import { POOLED_SHARE, RIDGE } from './taughtConstants.ts';
import type { TrainingSample } from './trainingSamples.ts';

/** Strokes of one photo. */
export interface StrokesOfPhoto {
  readonly samples: readonly TrainingSample[];
}

/** How well strokes that were held back are called by the others. */
export interface HeldBackAgreement {
  /** Cells judged. */
  readonly cells: number;
  /** Share of them called as they were painted, 0..1: mean over the painted classes, each counting the same. */
  readonly agreement: number;
  /** Rows as painted, columns as called, cells; in class order. */
  readonly confusion: readonly (readonly number[])[];
}

/**
 * Agreement "on your strokes": each stroke is called by a discriminant taught on the strokes of the other groups.
 *
 * A group is every n-th stroke, so that no cell is judged by its neighbours of the same stroke. This is not the accuracy
 * of the cover: people paint easy places.
 *
 * @param groups 2 or more
 * @returns null where some class would have fewer than two strokes, so that none can be held back
 */
export function heldBackAgreement(
  photos: readonly StrokesOfPhoto[],
  classCount: number,
  groups = 5,
): HeldBackAgreement | null {
  if (!(Number.isInteger(groups) && groups >= 2)) {
    throw new RangeError(`groups must be a whole number from 2, got ${groups}`);
  }
  const strokes = new Map<string, TrainingSample[]>();
  photos.forEach(({ samples }, photo) => {
    for (const sample of samples) {
      const key = `${sample.classIndex}/${photo}/${sample.stroke}`;
      const own = strokes.get(key);
      if (own) own.push(sample);
      else strokes.set(key, [sample]);
    }
  });
  const byClass = Array.from({ length: classCount }, (_, c) =>
    [...strokes.values()].filter((cells) => cells[0]!.classIndex === c),
  );
  const painted = byClass.filter((own) => own.length > 0);
  if (painted.length < 2 || painted.some((own) => own.length < 2)) return null;

  const confusion = Array.from({ length: classCount }, () => new Array<number>(classCount).fill(0));
  for (let group = 0; group < groups; group += 1) {
    const isHeldBack = (index: number) => index % groups === group;
    const kept = byClass.map((own) => own.filter((_, index) => !isHeldBack(index)).flat());
    const call = caller(kept);
    byClass.forEach((own, c) => {
      for (const cell of own.filter((_, index) => isHeldBack(index)).flat()) {
        confusion[c]![call(cell.features)]! += 1;
      }
    });
  }
  const recalls = confusion.flatMap((row, c) => {
    const cells = row.reduce((sum, count) => sum + count, 0);
    return cells > 0 ? [row[c]! / cells] : [];
  });
  return {
    cells: confusion.flat().reduce((sum, count) => sum + count, 0),
    agreement: recalls.reduce((sum, recall) => sum + recall, 0) / recalls.length,
    confusion,
  };
}

/** The likeliest class of a cell, classes counting the same. Classes without cells are never called. */
function caller(kept: readonly (readonly TrainingSample[])[]): (features: readonly number[]) => number {
  const size = FEATURES.length;
  const statistics: ClassStatistics[] = kept.map((cells) =>
    classStatistics(
      cells.map(({ features }) => features),
      size,
    ),
  );
  const cells = kept.reduce((sum, own) => sum + own.length, 0);
  const classes = kept.filter((own) => own.length > 0).length;
  const pooled = cells > classes ? pooledCovariance(statistics, size) : new Float64Array(size * size);
  // a feature that never varies must not make a covariance singular
  for (let f = 0; f < size; f += 1) pooled[f * size + f]! += LEAST_VARIANCE;
  const densities = statistics.map(({ count, mean, scatter }) => {
    if (count === 0) return null;
    const own = count > 2 * size ? scatter.map((value) => value / (count - 1)) : pooled;
    return normalDensity(mean, shrunkCovariance(own, pooled, POOLED_SHARE, RIDGE));
  });
  return (features) => {
    let best = 0;
    let bestDensity = Number.NEGATIVE_INFINITY;
    densities.forEach((density, c) => {
      if (!density) return;
      const value = logDensity(density, features);
      if (value > bestDensity) {
        bestDensity = value;
        best = c;
      }
    });
    return best;
  };
}

/** In squared units of L*, a*, b*: well below what sensors and JPEG add. */
const LEAST_VARIANCE = 0.01;
