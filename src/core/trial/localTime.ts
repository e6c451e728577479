import { type CalendarDay, isCalendarDay } from './calendarDay.ts';

/**
 * A camera's clock reading as written in the file: local time of wherever the camera was, zone unknown.
 * It is never turned into an instant with the zone of the machine that reads it.
 */
export interface LocalTime {
  readonly day: CalendarDay;
  /** Seconds since local midnight, 0..86399. */
  readonly secondOfDay: number;
}

const WRITTEN = /^(\d{4})[:-](\d{2})[:-](\d{2})[ T](\d{2}):(\d{2}):(\d{2})(?:\.\d+)?$/;
const OFFSET = /^([+-])(\d{2}):(\d{2})$/;

/**
 * Reads `YYYY:MM:DD HH:MM:SS` (Exif DateTimeOriginal) or `YYYY-MM-DDTHH:MM:SS`.
 *
 * @returns null where it is no time: blanks, `0000:00:00 00:00:00`, a 13th month, a year outside 1950..2149
 */
export function readLocalTime(written: string): LocalTime | null {
  const parts = WRITTEN.exec(written.replaceAll('\0', '').trim());
  if (!parts) return null;
  const day = `${parts[1]}-${parts[2]}-${parts[3]}`;
  const [hour, minute, second] = [Number(parts[4]), Number(parts[5]), Number(parts[6])];
  if (!isCalendarDay(day) || hour > 23 || minute > 59 || second > 59) return null;
  return { day, secondOfDay: hour * 3600 + minute * 60 + second };
}

/**
 * Reads an Exif OffsetTimeOriginal, `+HH:MM` or `-HH:MM`.
 *
 * @returns minutes ahead of UTC, or null where none is written (Exif writes blanks for "unknown")
 */
export function readUtcOffsetMinutes(written: string): number | null {
  const parts = OFFSET.exec(written.replaceAll('\0', '').trim());
  if (!parts) return null;
  const [hours, minutes] = [Number(parts[2]), Number(parts[3])];
  if (hours > 14 || minutes > 59) return null;
  return (parts[1] === '-' ? -1 : 1) * (hours * 60 + minutes) + 0;
}
