import { extractFeatures, FEATURE_SET, type FeaturePlanes } from '../features/featurePlanes.ts';
import type { Classification, ClassifyOptions, ClassifyRequest, CoverFlag } from './classification.ts';
import { classifiedCells } from './classifiedCells.ts';
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

  const labels = drawPhotoFit(features, fit);
  const { standardError, reasons, doubt } = fit;
  const flags = new Set<CoverFlag>(reasons.map(({ flag }) => flag));
  if (fit.taught.length < classes.length) flags.add('class-without-strokes');
  if (area.measuredPixels < LEAST_PIXELS) flags.add('too-few-pixels');
  const { grid, groundWeight } = features;
  return {
    ...classifiedCells({ labels, grid, groundWeight }, request, flags),
    standardError,
    reasons,
    doubt,
  };
}
