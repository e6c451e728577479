import { FEATURES } from '../features/featurePlanes.ts';
import type { CoverModel } from './coverModel.ts';
import { adaptToPhoto } from './photoAdaptation.ts';
import { expectPhoto, type LeftOut } from './photoExpectation.ts';
import type { CellSample, PhotoLook } from './photoLook.ts';
import { CELLS_FOR_ERROR, MODEL_ERROR } from './taughtConstants.ts';

/**
 * Jackknife over what was painted: whole photos where there are three or more, else parts of each photo that lie
 * apart. Neighbouring pixels show the same leaves, so pixels themselves are never the unit. Added to it is what
 * even well-taught models were wrong by (MODEL_ERROR).
 *
 * @returns shares 0..1, by class of the model; null with fewer than three units
 * @see Quenouille 1956, Biometrika 43:353
 */
export function leaveOutError(
  model: CoverModel,
  look: PhotoLook,
  photoSha256: string | null,
  sample: CellSample,
): number[] | null {
  const own = model.photos.findIndex((photo) => photoSha256 !== null && photo.photoSha256 === photoSha256);
  const partsOf = (photo: number): LeftOut[] =>
    model.photos[photo]!.parts.map((_, part) => ({ photo, part }));
  const few = thinned(sample, CELLS_FOR_ERROR);
  const units: LeftOut[] =
    own >= 0
      ? partsOf(own)
      : model.photos.length >= 3
        ? model.photos.map((_, photo) => ({ photo, part: null }))
        : model.photos.flatMap((_, photo) => partsOf(photo));
  if (units.length < 3) return null;
  const replicates = units.map((unit) => {
    const { taught, ...expected } = expectPhoto(model, look, photoSha256, unit);
    const { shares } = adaptToPhoto({ taught, ...expected }, few);
    return model.classes.map((_, c) => (taught.includes(c) ? shares[taught.indexOf(c)]! : 0));
  });
  return model.classes.map((_, c) => {
    const values = replicates.map((replicate) => replicate[c]!);
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const squares = values.reduce((sum, value) => sum + (value - mean) * (value - mean), 0);
    return Math.sqrt((squares * (values.length - 1)) / values.length + MODEL_ERROR * MODEL_ERROR);
  });
}

/** Every n-th cell of a sample, so that about `wanted` are left. */
function thinned({ features, weights, lightGain }: CellSample, wanted: number): CellSample {
  const step = Math.max(1, Math.floor(weights.length / wanted));
  const kept = Array.from({ length: Math.ceil(weights.length / step) }, (_, i) => i * step);
  return {
    features: Float64Array.from(
      kept.flatMap((cell) => [...features.subarray(cell * SIZE, (cell + 1) * SIZE)]),
    ),
    weights: Float64Array.from(kept, (cell) => weights[cell]!),
    lightGain,
  };
}

const SIZE = FEATURES.length;
