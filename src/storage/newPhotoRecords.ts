import type { PlotFrame } from '../core/geometry/plotFrame.ts';
import type { PhotoPoint } from '../core/geometry/points.ts';
import { putWaiting } from './jobQueue.ts';
import type { PhotoRecord } from './records/photoRecords.ts';
import type { CheckedTables } from './storeContext.ts';

/** A photo as it is taken in. */
export interface NewPhoto
  extends Pick<PhotoRecord, 'name' | 'sha256' | 'plot' | 'ratingDate' | 'namedBy' | 'widthPx' | 'heightPx'>,
    Partial<Pick<PhotoRecord, 'takenAt' | 'camera' | 'place'>> {
  /** The file, byte for byte. */
  readonly bytes: ArrayBuffer;
  readonly frame: PlotFrame | null;
  readonly neutral: readonly [number, number, number, number] | null;
  /** Polygons left out. @default none */
  readonly ignored?: readonly (readonly PhotoPoint[])[];
}

type Tables = CheckedTables<'photos' | 'photoBytes' | 'photoSettings' | 'jobs'>;

/**
 * The records of a photo that comes in, and its place in the queue. Part of a larger transaction.
 *
 * @param batch names the batch where none is under way
 */
export async function putNewPhoto(
  { photos, photoBytes, photoSettings, jobs }: Tables,
  { bytes, frame, neutral, ignored = [], ...facts }: NewPhoto,
  clock: { now(): string; newId(): string },
  batch?: string,
): Promise<PhotoRecord> {
  const id = clock.newId();
  const now = clock.now();
  const record: PhotoRecord = {
    id,
    trialId: null,
    place: null,
    takenAt: null,
    byteCount: bytes.byteLength,
    addedAt: now,
    ...facts,
  };
  await photos.put(record);
  await photoBytes.put({ photoId: id, bytes });
  await photoSettings.put({
    photoId: id,
    frame,
    neutral: neutral && [...neutral],
    ignored: ignored.map((polygon) => [...polygon]),
    ...(frame && { frameBy: 'file' as const }),
    ...(neutral && { neutralBy: 'file' as const }),
    changedAt: now,
  });
  await putWaiting(jobs, [id], now, batch);
  return record;
}
