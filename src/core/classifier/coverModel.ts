import { FEATURE_SET, FEATURES } from '../features/featurePlanes.ts';
import { repeatableRandom, seedFor, shuffled } from '../trial/repeatableRandom.ts';
import { type ClassStatistics, classStatistics } from './discriminant.ts';
import type { PhotoLook } from './photoLook.ts';
import { MOST_CELLS_OF_CLASS } from './taughtConstants.ts';
import { independentCells, type TrainingSample } from './trainingSamples.ts';

/** The version this program writes, and the newest it reads. */
export const COVER_MODEL_VERSION = 1;

/** What a photo says of one class. */
export interface TaughtClass {
  /** Labelled cells, 0 where the photo has none of the class. */
  readonly cells: number;
  /** The same, cells near each other counted once. */
  readonly independentCells: number;
  /** Of each feature; empty without cells. */
  readonly mean: readonly number[];
  /** Sums of products of deviations from the mean: row 0, then row 1 from its diagonal, and so on; empty without cells. */
  readonly scatter: readonly number[];
}

/** What was taught on one photo. */
export interface TaughtPhoto {
  /** SHA-256 of the photo's bytes, hexadecimal; null where it was not known. */
  readonly photoSha256: string | null;
  readonly look: PhotoLook;
  /**
   * The labelled cells in parts that lie apart from each other; each has an entry a class, in class order. What the
   * figure owes to the choice of places to paint is judged by leaving out a part at a time.
   */
  readonly parts: readonly (readonly TaughtClass[])[];
}

/** A classifier taught by strokes: plain data, complete in itself. */
export interface CoverModel {
  readonly type: 'cover-model';
  readonly version: typeof COVER_MODEL_VERSION;
  readonly featureSet: typeof FEATURE_SET;
  /** Ids, in label order. */
  readonly classes: readonly string[];
  readonly seed: number;
  readonly photos: readonly TaughtPhoto[];
}

/** A photo with its labelled cells. */
export interface TeachingPhoto {
  readonly photoSha256: string | null;
  readonly look: PhotoLook;
  readonly samples: readonly TrainingSample[];
}

export interface FitOptions {
  /** For the draw among many labelled cells. @default 1 */
  readonly seed?: number;
}

/** Why no model can be taught. */
export type TeachingProblem =
  | { readonly code: 'no-strokes' }
  | { readonly code: 'one-class-only'; readonly classId: string };

export type FitResult =
  | {
      readonly ok: true;
      readonly model: CoverModel;
      /** Classes that no stroke shows: the model never calls them. */
      readonly classesWithoutStrokes: readonly string[];
    }
  | { readonly ok: false; readonly problem: TeachingProblem };

/** Parts a photo's labelled cells are divided into. */
const PARTS = 4;

/**
 * Teaches a model on labelled cells of one or more photos of a rating date. The same samples and seed give the same
 * model, in whatever order the photos come.
 *
 * @param classIds in label order
 */
export function fitCoverModel(
  photos: readonly TeachingPhoto[],
  classIds: readonly string[],
  options: FitOptions = {},
): FitResult {
  const { seed = 1 } = options;
  const labelled = photos.filter(({ samples }) => samples.length > 0);
  const present = classIds.filter((_, c) =>
    labelled.some(({ samples }) => samples.some(({ classIndex }) => classIndex === c)),
  );
  if (present.length === 0) return { ok: false, problem: { code: 'no-strokes' } };
  if (present.length === 1) return { ok: false, problem: { code: 'one-class-only', classId: present[0]! } };
  const taught = labelled.map(({ photoSha256, look, samples }): TaughtPhoto => {
    const kept = classIds.flatMap((classId, c) => {
      const ofClass = samples.filter(({ classIndex }) => classIndex === c);
      const random = repeatableRandom(seedFor(seed, photoSha256 ?? '', classId));
      return shuffled(ofClass, random).slice(0, MOST_CELLS_OF_CLASS);
    });
    const parts = partsThatLieApart(kept).map((part) => classIds.map((_, c) => taughtClass(part, c)));
    return { photoSha256, look, parts };
  });
  taught.sort((a, b) => compareTexts(JSON.stringify(a), JSON.stringify(b)));
  return {
    ok: true,
    model: {
      type: 'cover-model',
      version: COVER_MODEL_VERSION,
      featureSet: FEATURE_SET,
      classes: classIds,
      seed,
      photos: taught,
    },
    classesWithoutStrokes: classIds.filter((id) => !present.includes(id)),
  };
}

const compareTexts = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function taughtClass(samples: readonly TrainingSample[], classIndex: number): TaughtClass {
  const ofClass = samples.filter((sample) => sample.classIndex === classIndex);
  if (ofClass.length === 0) return { cells: 0, independentCells: 0, mean: [], scatter: [] };
  const size = FEATURES.length;
  const { mean, scatter } = classStatistics(
    ofClass.map(({ features }) => features),
    size,
  );
  return {
    cells: ofClass.length,
    independentCells: independentCells(ofClass),
    mean: [...mean],
    scatter: [...scatter].filter((_, i) => i % size >= Math.floor(i / size)),
  };
}

/** The class's statistics from its entry in a model; null where the photo has none of the class. */
export function statisticsOf({ cells, mean, scatter }: TaughtClass): ClassStatistics | null {
  if (cells === 0) return null;
  const size = mean.length;
  const full = new Float64Array(size * size);
  let at = 0;
  for (let row = 0; row < size; row += 1) {
    for (let column = row; column < size; column += 1) {
      full[row * size + column] = scatter[at]!;
      full[column * size + row] = scatter[at]!;
      at += 1;
    }
  }
  return { count: cells, mean: Float64Array.from(mean), scatter: full };
}

/**
 * Divides labelled cells into up to PARTS parts that lie apart: halves by row, each halved by column, at the median
 * cell of every class in turn, so that each part has its share of each class.
 */
function partsThatLieApart(samples: readonly TrainingSample[]): TrainingSample[][] {
  const halves = (list: readonly TrainingSample[], key: (sample: TrainingSample) => number) => {
    const sorted = [...list].sort((a, b) => key(a) - key(b) || a.row - b.row || a.column - b.column);
    return [sorted.slice(0, sorted.length >> 1), sorted.slice(sorted.length >> 1)];
  };
  const parts: TrainingSample[][] = Array.from({ length: PARTS }, () => []);
  for (const classIndex of new Set(samples.map((sample) => sample.classIndex))) {
    const ofClass = samples.filter((sample) => sample.classIndex === classIndex);
    halves(ofClass, ({ row }) => row).forEach((half, upper) => {
      halves(half, ({ column }) => column).forEach((quarter, side) => {
        parts[2 * upper + side]!.push(...quarter);
      });
    });
  }
  return parts.filter((part) => part.length > 0);
}
