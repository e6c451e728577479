import type { TeachingStroke } from '../core/classifier/trainingSamples.ts';
import type { MeasureSettings } from '../core/cover/measurePhoto.ts';
import { type PhotoTeaching, teachOnPhoto } from '../core/cover/teachOnPhoto.ts';
import type { PhotoProblem } from '../core/photo-file/photoProblem.ts';
import { readPhotoFacts } from '../core/photo-file/readPhotoFacts.ts';
import { decodePhoto } from './decodePhoto.ts';

/** One photo with strokes. */
export interface TeachTask {
  readonly bytes: Uint8Array;
  readonly photoSha256: string;
  readonly settings: MeasureSettings;
  readonly strokes: readonly TeachingStroke[];
}

export type TeachOutcome =
  | (Extract<PhotoTeaching, { ok: true }> & {
      /** The day the camera noted. */
      readonly captureDay: string | null;
    })
  | Extract<PhotoTeaching, { ok: false }>
  | { readonly ok: false; readonly problem: PhotoProblem };

/** What the strokes on a photo file teach. */
export async function teachTask({ bytes, photoSha256, settings, strokes }: TeachTask): Promise<TeachOutcome> {
  const decoded = await decodePhoto(bytes);
  if (!decoded.ok) return decoded;
  const taught = await teachOnPhoto(decoded.raster, settings, strokes, { photoSha256 });
  return taught.ok ? { ...taught, captureDay: readPhotoFacts(bytes).captureDay } : taught;
}
