import { isCalendarDay } from '../trial/calendarDay.ts';
import { exifTags, exifText, positiveNumber } from './exifTags.ts';

/** What the camera noted in a photo; every fact is null where it noted none or nonsense. */
export interface PhotoFacts {
  /** Local clock time of the shot as the camera wrote it, e.g. "2027:04:12 09:14:20". */
  readonly capturedAsWritten: string | null;
  /** The calendar day in that text, YYYY-MM-DD; never shifted by a time zone. */
  readonly captureDay: string | null;
  /** The clock time in that text, HH:MM:SS. */
  readonly captureTime: string | null;
  readonly focalLengthMm: number | null;
  /** Focal length that gives the same view on 24 x 36 mm film. */
  readonly focalLength35Mm: number | null;
  readonly notes: readonly PhotoFactNote[];
}

export type PhotoFactNote =
  /** The file holds no EXIF, or none that can be read. */
  | { readonly code: 'no-camera-facts' }
  /** A capture time is there and is no time of this age. */
  | { readonly code: 'capture-time-nonsense'; readonly asWritten: string };

/** Before it no phone took photos; after it nobody will use this program. Clocks gone wrong fall outside. */
const FIRST_YEAR = 1995;
const LAST_YEAR = 2099;

const NOTHING = {
  capturedAsWritten: null,
  captureDay: null,
  captureTime: null,
  focalLengthMm: null,
  focalLength35Mm: null,
};

/**
 * Reads what the camera noted in a photo. Never throws: what cannot be read is null, with a note.
 *
 * The time is DateTimeOriginal, else DateTimeDigitized; DateTime is when the file was changed and is not used.
 *
 * @see Exif 2.32 (CIPA DC-008), tags 0x9003, 0x9004, 0x920A, 0xA405
 */
export function readPhotoFacts(bytes: Uint8Array): PhotoFacts {
  const tags = exifTags(bytes);
  if (!tags) return { ...NOTHING, notes: [{ code: 'no-camera-facts' }] };
  const facts = {
    ...NOTHING,
    focalLengthMm: positiveNumber(tags.FocalLength?.value),
    focalLength35Mm: positiveNumber(tags.FocalLengthIn35mmFilm?.value),
  };
  const asWritten = textOf(tags.DateTimeOriginal?.value) ?? textOf(tags.DateTimeDigitized?.value);
  if (asWritten === null) return { ...facts, notes: [] };
  const match = /^(\d{4})[:/-](\d{2})[:/-](\d{2})[ T](\d{2}:\d{2}:\d{2})/.exec(asWritten);
  const [year, month, day, time] = match?.slice(1) ?? [];
  const captureDay = `${year}-${month}-${day}`;
  const isTime = /^([01]\d|2[0-3]):[0-5]\d:[0-5]\d$/.test(time ?? '');
  if (!isTime || !isCalendarDay(captureDay) || Number(year) < FIRST_YEAR || Number(year) > LAST_YEAR) {
    return { ...facts, notes: [{ code: 'capture-time-nonsense', asWritten }] };
  }
  return { ...facts, capturedAsWritten: asWritten, captureDay, captureTime: time!, notes: [] };
}

/** A text that says something of a time; cameras write blanks and colons for unknown. */
function textOf(value: unknown): string | null {
  const text = exifText(value);
  return text !== null && /\d/.test(text) ? text : null;
}
