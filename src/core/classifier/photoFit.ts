import type { FeaturePlanes } from '../features/featurePlanes.ts';
import type { CoverModel } from './coverModel.ts';
import type { NormalDensity } from './discriminant.ts';
import { drawTaughtLabels } from './drawTaughtLabels.ts';
import { leaveOutError } from './leaveOutError.ts';
import { adaptToPhoto } from './photoAdaptation.ts';
import { expectPhoto } from './photoExpectation.ts';
import { type CellSample, photoLook } from './photoLook.ts';
import { logShares } from './shares.ts';
import { type DoubtReason, doubtsAbout } from './taughtDoubts.ts';

/** A taught model fitted to one photo: its shares and doubts, and what the mask is drawn with. */
export interface PhotoFit {
  /** Share of ground of each class of the model, 0..1, in class order; 0 for a class without strokes. */
  readonly coverFraction: readonly number[];
  /** Of each share, 0..1; null where too little was painted to tell, or where it was not asked for. */
  readonly standardError: readonly number[] | null;
  /** Why the figure is in doubt, worst first; empty where it is not. */
  readonly reasons: readonly DoubtReason[];
  /** How unlike the photos taught on: the larger, the sooner a person should look. 1 is where a flag is raised. */
  readonly doubt: number;
  /** Indices of the classes that strokes show, in class order. */
  readonly taught: readonly number[];
  /** One entry a taught class. */
  readonly shares: Float64Array;
  /** One entry a taught class. */
  readonly maskDensities: readonly NormalDensity[];
}

export interface PhotoFitOptions {
  /** SHA-256 of the photo's bytes: finds the photo's own strokes in the model. @default null */
  readonly photoSha256?: string | null;
  /** Standard errors cost about as much as the shares; without them `unsteady-shares` is never a reason. @default true */
  readonly withStandardError?: boolean;
}

/** Fits a model to a sample of a photo's cells. The costly step once features are there; the mask is cheap. */
export function fitToPhoto(
  model: CoverModel,
  sample: CellSample,
  { photoSha256 = null, withStandardError = true }: PhotoFitOptions = {},
): PhotoFit {
  const look = photoLook(sample);
  const expected = expectPhoto(model, look, photoSha256);
  const adapted = adaptToPhoto(expected, sample);
  const standardError = withStandardError ? leaveOutError(model, look, photoSha256, sample) : null;
  const coverFraction = new Array<number>(model.classes.length).fill(0);
  expected.taught.forEach((c, i) => {
    coverFraction[c] = adapted.shares[i]!;
  });
  return {
    coverFraction,
    standardError,
    ...doubtsAbout(expected, adapted, standardError, model.classes),
    taught: expected.taught,
    shares: adapted.shares,
    maskDensities: adapted.maskDensities,
  };
}

/** Labels of the cells such that the ground of each class is its share; 0 where a cell is not measured. */
export function drawPhotoFit(features: FeaturePlanes, fit: PhotoFit): Uint8Array<ArrayBuffer> {
  const { maskDensities, shares, taught } = fit;
  const labels = taught.map((c) => c + 1);
  return drawTaughtLabels(features, maskDensities, logShares(shares), shares, labels);
}
