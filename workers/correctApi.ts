import type { MeasureProblem, MeasureSettings } from '../src/core/cover/measurePhoto.ts';
import type { PixelBox } from '../src/core/geometry/pixelBox.ts';
import type { PixelRuns } from '../src/core/geometry/pixelRuns.ts';
import type { PhotoPoint } from '../src/core/geometry/points.ts';
import type { LikenessField } from '../src/core/mask/colourLikeness.ts';
import type { PhotoProblem } from '../src/core/photo-file/photoProblem.ts';
import type { LabelMask } from '../src/core/raster/labelMask.ts';

export type ReadOutcome =
  | { readonly ok: true }
  | { readonly ok: false; readonly problem: PhotoProblem | MeasureProblem };

/** The worker of hand corrections as the page sees it: what takes too long to do between two frames. Masks are copies. */
export interface CorrectApi {
  /** Takes the photo in, whose colours `likeness` compares. `bytes` is transferred. */
  read(bytes: ArrayBuffer, settings: MeasureSettings): Promise<ReadOutcome>;
  /** See core/mask/connectedPatch.ts. */
  patch(mask: LabelMask, seed: PhotoPoint): PixelRuns;
  /** See `majorityRuns` of core/mask/smoothOutline.ts. */
  majority(mask: LabelMask, classCount: number, region: PixelRuns, radiusPx: number): PixelRuns[];
  /** See core/mask/colourLikeness.ts; null where the seed is not measured, or no photo was taken in. */
  likeness(seed: PhotoPoint, box: PixelBox): Promise<LikenessField | null>;
}
