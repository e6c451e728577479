import { FEATURES } from '../features/featurePlanes.ts';
import { portableExp } from '../features/portableMath.ts';
import { type CoverModel, statisticsOf, type TaughtPhoto } from './coverModel.ts';
import { type ClassStatistics, shrunkCovariance } from './discriminant.ts';
import type { PhotoLook } from './photoLook.ts';
import type { Matrix } from './symmetricMatrix.ts';
import {
  CONTRAST_LIKENESS,
  FEW_CELLS,
  GUESS_COUNTS_AS_CELLS,
  LARGEST_SPREAD_RATIO,
  LEAST_LIKENESS,
  POOLED_SHARE,
  POOLED_SHARE_OF_MASK,
  RIDGE,
  SPREAD_POWER,
  WITHIN_CLASS_VARIANCE,
} from './taughtConstants.ts';

/** What a model expects of a photo before it looks at the photo's own cells. Classes here are those that were taught. */
export interface PhotoExpectation {
  /** Places of the taught classes among all classes, 0... */
  readonly taught: readonly number[];
  readonly means: readonly Float64Array[];
  readonly covariances: readonly Matrix[];
  /** Covariances shrunk further, for drawing the mask. */
  readonly maskCovariances: readonly Matrix[];
  /** Labelled cells of this very photo, by class; null where there are none. */
  readonly own: readonly (LabelledMean | null)[];
  /** How many times brighter the photos taught on were made by levelling, as a mean by likeness. */
  readonly lightGain: number;
  /** Least difference in contrast to a photo that was taught on. */
  readonly contrastOff: number;
}

export interface LabelledMean {
  readonly cells: number;
  readonly mean: Float64Array;
}

/** A part of a photo's labelled cells that is left out, to see what the figure owes to it. */
export interface LeftOut {
  readonly photo: number;
  /** Left out alone; the whole photo when null. */
  readonly part: number | null;
}

const SIZE = FEATURES.length;

interface PhotoLesson {
  readonly likeness: number;
  readonly lightGain: number;
  readonly isSame: boolean;
  /** Factors for the spread of each feature, from that photo to this. */
  readonly spreadFactors: Float64Array;
  readonly classes: readonly (MergedClass | null)[];
}

interface MergedClass extends ClassStatistics {
  readonly independentCells: number;
}

/**
 * Class means and covariances expected on a photo: those of the photos taught on, weighted by how alike their light is,
 * with their spread brought to this photo's.
 *
 * @param photoSha256 finds the photo among those taught on; null when unknown
 * @throws RangeError if what is left teaches no class
 */
export function expectPhoto(
  model: CoverModel,
  look: PhotoLook,
  photoSha256: string | null,
  leftOut: LeftOut | null = null,
): PhotoExpectation {
  const lessons = model.photos.flatMap((photo, index) => {
    if (leftOut && leftOut.photo === index && leftOut.part === null) return [];
    const without = leftOut && leftOut.photo === index ? leftOut.part : null;
    return [lessonOf(photo, look, photoSha256, without, model.classes.length)];
  });
  const taught = model.classes.flatMap((_, c) => (lessons.some(({ classes }) => classes[c]) ? [c] : []));
  if (taught.length === 0) throw new RangeError('a model without labelled cells expects nothing');
  const merged = taught.map((c) => mergeClass(lessons, c));

  const pooled = new Float64Array(SIZE * SIZE);
  const free = merged.reduce((sum, { free: own }) => sum + own, 0);
  for (const { scatter } of merged) for (let i = 0; i < pooled.length; i += 1) pooled[i]! += scatter[i]!;
  for (let i = 0; i < pooled.length; i += 1) {
    const f = Math.floor(i / SIZE);
    const guess = i % (SIZE + 1) === 0 ? WITHIN_CLASS_VARIANCE * look.spread[f]! * look.spread[f]! : 0;
    pooled[i] = (pooled[i]! + GUESS_COUNTS_AS_CELLS * guess) / (free + GUESS_COUNTS_AS_CELLS);
  }
  const covariancesWith = (pooledShare: number): Matrix[] =>
    merged.map(({ scatter, free: own, cells }) => {
      const share = pooledShare + ((1 - pooledShare) * FEW_CELLS) / (FEW_CELLS + cells);
      return shrunkCovariance(own >= 1 ? scatter.map((v) => v / own) : pooled, pooled, share, RIDGE);
    });
  return {
    taught,
    means: merged.map(({ mean }) => mean),
    covariances: covariancesWith(POOLED_SHARE),
    maskCovariances: covariancesWith(POOLED_SHARE_OF_MASK),
    own: taught.map((c) => {
      const same = lessons.find(({ isSame }) => isSame)?.classes[c];
      return same ? { cells: same.independentCells, mean: same.mean } : null;
    }),
    lightGain:
      lessons.reduce((sum, { likeness, lightGain }) => sum + likeness * lightGain, 0) /
      lessons.reduce((sum, { likeness }) => sum + likeness, 0),
    contrastOff: Math.min(...model.photos.map((photo) => Math.abs(photo.look.contrast - look.contrast))),
  };
}

function lessonOf(
  photo: TaughtPhoto,
  look: PhotoLook,
  photoSha256: string | null,
  withoutPart: number | null,
  classCount: number,
): PhotoLesson {
  const off = (photo.look.contrast - look.contrast) / CONTRAST_LIKENESS;
  const parts = photo.parts.filter((_, part) => part !== withoutPart);
  return {
    likeness: portableExp((-off * off) / 2) + LEAST_LIKENESS,
    lightGain: photo.look.lightGain,
    isSame: photoSha256 !== null && photo.photoSha256 === photoSha256,
    spreadFactors: Float64Array.from(look.spread, (spread, f) => {
      const ratio = spread / photo.look.spread[f]!;
      const capped = Math.min(LARGEST_SPREAD_RATIO, Math.max(1 / LARGEST_SPREAD_RATIO, ratio));
      return SPREAD_POWER === 0.5 ? Math.sqrt(capped) : capped ** SPREAD_POWER;
    }),
    classes: Array.from({ length: classCount }, (_, c) => mergeParts(parts.map((part) => part[c]!))),
  };
}

/** One class of one photo from its parts. */
function mergeParts(parts: TaughtPhoto['parts'][number]): MergedClass | null {
  return parts.reduce<MergedClass | null>((merged, part) => {
    const statistics = statisticsOf(part);
    if (!statistics) return merged;
    const next = { ...statistics, independentCells: part.independentCells };
    return merged ? mergePair(merged, next) : next;
  }, null);
}

/** @see Chan, Golub and LeVeque 1979: updating formulae for means and sums of squares */
function mergePair(a: MergedClass, b: MergedClass): MergedClass {
  const count = a.count + b.count;
  const between = (a.count * b.count) / count;
  const off = b.mean.map((value, f) => value - a.mean[f]!);
  return {
    count,
    independentCells: a.independentCells + b.independentCells,
    mean: a.mean.map((value, f) => value + (off[f]! * b.count) / count),
    scatter: a.scatter.map(
      (value, i) => value + b.scatter[i]! + between * off[Math.floor(i / SIZE)]! * off[i % SIZE]!,
    ),
  };
}

interface ExpectedClass {
  readonly mean: Float64Array;
  readonly scatter: Matrix;
  /** Weighted cells less the means they are counted from. */
  readonly free: number;
  readonly cells: number;
}

/** One class over the photos, each by its likeness. */
function mergeClass(lessons: readonly PhotoLesson[], c: number): ExpectedClass {
  const shown = lessons.flatMap(({ classes, likeness, spreadFactors }) => {
    const statistics = classes[c];
    return statistics ? [{ statistics, likeness, spreadFactors }] : [];
  });
  const total = shown.reduce((sum, { likeness }) => sum + likeness, 0);
  const most = Math.max(...shown.map(({ likeness }) => likeness));
  const mean = new Float64Array(SIZE);
  const scatter = new Float64Array(SIZE * SIZE);
  let free = 0;
  let cells = 0;
  for (const { statistics, likeness, spreadFactors } of shown) {
    for (let f = 0; f < SIZE; f += 1) mean[f]! += (likeness / total) * statistics.mean[f]!;
    const weight = likeness / most;
    for (let i = 0; i < scatter.length; i += 1) {
      scatter[i]! +=
        weight * statistics.scatter[i]! * spreadFactors[Math.floor(i / SIZE)]! * spreadFactors[i % SIZE]!;
    }
    free += weight * (statistics.count - 1);
    cells += weight * statistics.count;
  }
  return { mean, scatter, free, cells };
}

/** L* + 16, a* and b* all go with the cube root of light: where a feature is 0 in terms of light. */
const FOOT = FEATURES.map(({ channel, what }) => (channel === 'lightness' && what === 'mean' ? -16 : 0));

/**
 * The same expectation for a photo whose features are `scale` times as large (L* + 16, a*, b* and their spread), as when
 * levelling made it brighter than the photos taught on.
 */
export function scaledExpectation(expected: PhotoExpectation, scale: number): PhotoExpectation {
  const scaled = (covariances: readonly Matrix[]): Matrix[] =>
    covariances.map((covariance) => covariance.map((value) => value * scale * scale));
  return {
    ...expected,
    means: expected.means.map((mean) => mean.map((value, f) => (value - FOOT[f]!) * scale + FOOT[f]!)),
    covariances: scaled(expected.covariances),
    maskCovariances: scaled(expected.maskCovariances),
  };
}
