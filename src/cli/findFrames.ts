import type { MeasureSettings } from '../core/cover/measurePhoto.ts';
import type { FindRequest } from '../core/quality/checkPhoto.ts';
import { cli } from '../core/text/cli.ts';
import { UsageError } from './usageError.ts';

/** That frames are looked for, and the inner size they have; null where it is not known. */
export interface FindFrames {
  readonly sizeMm: FindRequest['frameSizeMm'];
}

const LEAST_MM = 10;
const MOST_MM = 20_000;

/** @throws UsageError for a size that is none, or one without frames to be found */
export function findFramesOf(findFrame: true | undefined, size: string | undefined): FindFrames | null {
  const words = cli.measure;
  if (!findFrame) {
    if (size !== undefined) throw new UsageError(words.frameSizeWithoutFind);
    return null;
  }
  if (size === undefined) return { sizeMm: null };
  const [width, height] = /^(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)$/.exec(size)?.slice(1).map(Number) ?? [];
  const inRange = (mm: number | undefined): mm is number =>
    mm !== undefined && mm >= LEAST_MM && mm <= MOST_MM;
  if (!inRange(width) || !inRange(height)) {
    throw new UsageError(words.badFrameSize(size, LEAST_MM, MOST_MM));
  }
  return { sizeMm: [width, height] };
}

/** What is to be found in a photo that the annotations say nothing of; null for nothing. */
export function findRequestOf(
  { frame, neutral }: MeasureSettings,
  findFrames: FindFrames | null,
): FindRequest | null {
  return findFrames && { frame: !frame, greyCard: !neutral, frameSizeMm: findFrames.sizeMm };
}
