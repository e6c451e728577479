import type { DoubtReason } from '../core/classifier/taughtDoubts.ts';
import type { CoverShare } from '../core/cover/coverOfMask.ts';
import {
  type MeasureProblem,
  type MeasureSettings,
  measurePhoto,
  type NamedModel,
} from '../core/cover/measurePhoto.ts';
import type { FrameFinding } from '../core/frame/findFrame.ts';
import { type DecoderVerdict, decoderSelfTest } from '../core/photo-file/decoderSelfTest.ts';
import type { PhotoProblem } from '../core/photo-file/photoProblem.ts';
import { readPhotoFacts } from '../core/photo-file/readPhotoFacts.ts';
import { checkPhoto, type FindRequest, isSureFrame } from '../core/quality/checkPhoto.ts';
import { decodePhoto, decodePicture } from './decodePhoto.ts';
import { writeMaskFile } from './maskFile.ts';

/** One photo to measure. */
export interface MeasureTask {
  readonly bytes: Uint8Array;
  readonly photoSha256: string;
  readonly settings: MeasureSettings;
  /** What is to be found in the photo first; null to measure it as the settings say. */
  readonly find: FindRequest | null;
  /** The model that the settings name; null for the start model. */
  readonly taught: NamedModel | null;
  /** Where its mask goes; null for none. */
  readonly maskPath: string | null;
}

/** What came of a photo; it crosses threads, so it is plain data and holds no pixels. */
export type MeasureOutcome =
  | {
      readonly ok: true;
      readonly cover: readonly (CoverShare & { readonly classId: string })[];
      readonly flags: readonly string[];
      readonly reasons: readonly DoubtReason[];
      readonly modelId: string;
      /** The day the camera noted. */
      readonly captureDay: string | null;
      readonly decoder: DecoderVerdict;
    }
  | { readonly ok: false; readonly problem: PhotoProblem | MeasureProblem };

/** How the frame of a figure came about that nobody has looked at. */
function frameFlag(finding: FrameFinding): string {
  if (isSureFrame(finding)) return 'frame-found';
  return finding.found ? 'frame-doubtful' : 'frame-missing';
}

let verdict: Promise<DecoderVerdict> | undefined;

/**
 * A photo file to its cover, and its mask into a file: what each thread of the command line does.
 *
 * @throws Error if the mask cannot be written
 */
export async function measureTask(task: MeasureTask): Promise<MeasureOutcome> {
  const { bytes, photoSha256, find, taught, maskPath } = task;
  verdict ??= decoderSelfTest(decodePicture);
  const decoder = await verdict;
  const decoded = await decodePhoto(bytes);
  if (!decoded.ok) return decoded;
  const { captureDay } = readPhotoFacts(bytes);
  const found = find && checkPhoto(decoded.raster, bytes, task.settings, find);
  const settings = found?.settings ?? task.settings;
  const result = await measurePhoto(decoded.raster, settings, { taught, photoSha256 });
  if (!result.ok) return result;
  const { mask, cover, flags, reasons, modelId } = result.measurement;
  if (maskPath !== null) await writeMaskFile(maskPath, mask);
  const own = [
    ...(decoder.state === 'same' ? [] : ['decoder-differs']),
    ...(found?.check.frame ? [frameFlag(found.check.frame)] : []),
  ];
  return { ok: true, cover, flags: [...flags, ...own], reasons, modelId, captureDay, decoder };
}
