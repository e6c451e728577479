import { extractFeatures, FEATURE_SET, type FeaturePlanes } from '../features/featurePlanes.ts';
import { labelMaskFromCells } from '../mask/labelMaskFromCells.ts';
import type { Classification, ClassifyOptions, ClassifyRequest, CoverFlag } from './classification.ts';
import type { CoverModel } from './coverModel.ts';
import { drawPhotoFit, fitToPhoto, type PhotoFitOptions } from './photoFit.ts';
import { sampleCells } from './photoLook.ts';
import { LEAST_PIXELS } from './startConstants.ts';
import type { DoubtReason } from './taughtDoubts.ts';

/** Part of the work that features take, for progress. */
const FEATURE_PART = 0.7;

export interface TaughtOptions extends ClassifyOptions, PhotoFitOptions {
  /** Features of the same photo, area and neutral gains, where they are known already. */
  readonly features?: FeaturePlanes;
}

export interface TaughtClassification extends Classification {
  /**
   * Of each share, 0..1, in class order: what the figure owes to the places that happened to be painted, and what the
   * model does not know of turf. Null where too little was painted to tell.
   */
  readonly standardError: readonly number[] | null;
  /** Why the figure is in doubt; empty where it is not. */
  readonly reasons: readonly DoubtReason[];
  /** How unlike the photos taught on: the larger, the sooner a person should look. 1 is where a flag is raised. */
  readonly doubt: number;
}

/**
 * Cover by a taught model: fitted to the photo, shares estimated, mask drawn to the shares.
 *
 * A class that was never painted has share 0 and a flag.
 *
 * @throws RangeError if nothing is measured, or if classes or feature set are not the model's
 */
export async function classifyWithModel(
  request: ClassifyRequest,
  model: CoverModel,
  options: TaughtOptions = {},
): Promise<TaughtClassification> {
  const { raster, area, classes, neutralGains } = request;
  const { stripRows = 256, betweenStrips, photoSha256 = null, withStandardError = true } = options;
  if (model.featureSet !== FEATURE_SET) {
    throw new RangeError(`the model needs the features ${model.featureSet}, this program has ${FEATURE_SET}`);
  }
  const ids = classes.map(({ id }) => id);
  if (ids.join() !== model.classes.join()) {
    throw new RangeError(`the model's classes are ${model.classes.join()}, the run's ${ids.join()}`);
  }
  const features =
    options.features ??
    (await extractFeatures(raster, area, {
      neutralGains,
      stripRows,
      betweenStrips: betweenStrips && ((done) => betweenStrips(done * FEATURE_PART)),
    }));
  await betweenStrips?.(FEATURE_PART);

  const fit = fitToPhoto(model, sampleCells(features), { photoSha256, withStandardError });
  await betweenStrips?.((1 + FEATURE_PART) / 2);

  const cellLabels = drawPhotoFit(features, fit);
  const { standardError, reasons, doubt } = fit;
  const flags = new Set<CoverFlag>(reasons.map(({ flag }) => flag));
  if (fit.taught.length < classes.length) flags.add('class-without-strokes');
  if (area.measuredPixels < LEAST_PIXELS) flags.add('too-few-pixels');
  return {
    mask: labelMaskFromCells(cellLabels, features.grid, area),
    coverFraction: cellShares(cellLabels, features.groundWeight, classes.length),
    flags: [...flags],
    standardError,
    reasons,
    doubt,
  };
}

/** Ground of each label as a share of all of it, 0..1. */
function cellShares(cellLabels: Uint8Array, groundWeight: Int32Array, classCount: number): number[] {
  const sums = new Float64Array(classCount + 1);
  for (let cell = 0; cell < cellLabels.length; cell += 1) sums[cellLabels[cell]!]! += groundWeight[cell]!;
  const total = sums.reduce((sum, value) => sum + value, 0);
  return Array.from(sums.subarray(1), (sum) => sum / total);
}
