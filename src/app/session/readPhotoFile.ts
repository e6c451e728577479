import { inspectPhotoFile } from '../../core/photo-file/inspectPhotoFile.ts';
import type { PhotoFileInfo } from '../../core/photo-file/photoFileInfo.ts';
import { plotAndDateFromName } from '../../core/photo-file/plotAndDateFromName.ts';
import type { NewPhoto } from '../../storage/newPhotoRecords.ts';
import type { PhotoRecord } from '../../storage/records/photoRecords.ts';
import type { AddProblem } from './session.ts';
import { sha256Of } from './sha256Of.ts';

export type ReadPhoto =
  | { readonly ok: true; readonly photo: NewPhoto }
  | { readonly ok: false; readonly problem: AddProblem };

/**
 * Reads a file wholly, so that it may be moved afterwards, and looks at its head: what is no photo is refused here.
 *
 * @param settled what is known of the photo beside its file
 */
export async function readPhotoFile(
  file: File,
  settled: Pick<NewPhoto, 'frame' | 'neutral' | 'ignored'> = { frame: null, neutral: null },
): Promise<ReadPhoto> {
  let bytes: ArrayBuffer;
  try {
    bytes = await file.arrayBuffer();
  } catch (error) {
    return { ok: false, problem: { code: 'file-unreadable', detail: (error as Error).message } };
  }
  const inspection = inspectPhotoFile(new Uint8Array(bytes));
  if (!inspection.ok) return inspection;
  const { plot, ratingDate } = plotAndDateFromName(file.name);
  const named = plot !== null || ratingDate !== null;
  const { day, ...taken } = await readTaking(new Uint8Array(bytes));
  const place = named
    ? ({ plot, ratingDate, namedBy: 'file-name' } as const)
    : ({ plot, ratingDate: day, namedBy: day === null ? null : 'exif' } as const);
  const sha256 = await sha256Of(new Uint8Array(bytes));
  const size = uprightSize(inspection.info);
  return {
    ok: true,
    photo: { name: file.name, bytes, sha256, ...place, ...taken, ...size, ...settled },
  };
}

/** When and with what it was taken, so that photos find their plots before they are measured. */
async function readTaking(
  file: Uint8Array,
): Promise<Pick<PhotoRecord, 'takenAt' | 'camera'> & { readonly day: string | null }> {
  // the reader of EXIF is no part of the first load
  const { readPhotoFacts, readCameraFacts } = await import('./cameraFacts.ts');
  const { captureDay: day, captureTime, notes } = readPhotoFacts(file);
  const nonsense = notes.find((note) => note.code === 'capture-time-nonsense');
  const { device, utcOffsetMinutes } = readCameraFacts(file);
  const camera = {
    device,
    utcOffsetMinutes,
    ...(nonsense && { unreadableTime: nonsense.asWritten }),
  };
  return { day, takenAt: day && `${day}T${captureTime}`, camera };
}

function uprightSize({ kind, storedWidthPx, storedHeightPx, orientation }: PhotoFileInfo) {
  // how a HEIC is turned is known only to its decoder
  if (kind === 'heic') return { widthPx: null, heightPx: null };
  const turned = orientation >= 5;
  return turned
    ? { widthPx: storedHeightPx, heightPx: storedWidthPx }
    : { widthPx: storedWidthPx, heightPx: storedHeightPx };
}
