import type { TeachingStroke } from '../core/classifier/trainingSamples.ts';
import type { MeasureSettings } from '../core/cover/measurePhoto.ts';
import { type PhotoTeaching, teachOnPhoto } from '../core/cover/teachOnPhoto.ts';
import type { PhotoProblem } from '../core/photo-file/photoProblem.ts';
import { readPhotoFacts } from '../core/photo-file/readPhotoFacts.ts';
import { checkPhoto, type FindRequest } from '../core/quality/checkPhoto.ts';
import { decodePhoto } from './decodePhoto.ts';

/** One photo with strokes. */
export interface TeachTask {
  readonly bytes: Uint8Array;
  readonly photoSha256: string;
  readonly settings: MeasureSettings;
  /** What is to be found in the photo first, as when it is measured; null for nothing. */
  readonly find: FindRequest | null;
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
export async function teachTask(task: TeachTask): Promise<TeachOutcome> {
  const { bytes, photoSha256, find, strokes } = task;
  const decoded = await decodePhoto(bytes);
  if (!decoded.ok) return decoded;
  const settings = find ? checkPhoto(decoded.raster, bytes, task.settings, find).settings : task.settings;
  const taught = await teachOnPhoto(decoded.raster, settings, strokes, { photoSha256 });
  return taught.ok ? { ...taught, captureDay: readPhotoFacts(bytes).captureDay } : taught;
}
