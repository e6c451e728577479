import { addDays, type CalendarDay } from '../trial/calendarDay.ts';

/** An all-day entry of a calendar file. */
export interface CalendarFileEvent {
  /** Stays the same for the same thing, so that a calendar that reads the file again moves it instead of doubling it. */
  readonly uid: string;
  readonly firstDay: CalendarDay;
  /** The last day of it; the same as the first for a single day. */
  readonly lastDay: CalendarDay;
  readonly summary: string;
  readonly description: string;
  readonly category: string;
}

export interface CalendarFile {
  readonly name: string;
  readonly events: readonly CalendarFileEvent[];
  /** Instant of writing, UTC, ISO 8601, e.g. "2027-02-20T08:15:00Z". */
  readonly writtenAt: string;
}

const OCTETS_PER_LINE = 75;

/**
 * Writes a calendar file (iCalendar, RFC 5545) of all-day entries: days are DATE values, free of time zones, and do not
 * mark the person as busy.
 *
 * @throws RangeError if the instant is not UTC
 */
export function writeCalendarFile({ name, events, writtenAt }: CalendarFile): string {
  const stamp = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d):(\d\d)(?:\.\d+)?Z$/.exec(writtenAt);
  if (!stamp) throw new RangeError(`the instant of writing is UTC, ISO 8601, got "${writtenAt}"`);
  const [, year, month, day, hour, minute, second] = stamp;
  const date = (written: CalendarDay) => written.replaceAll('-', '');
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Swardbook//Trial calendar 1//EN',
    'CALSCALE:GREGORIAN',
    'METHOD:PUBLISH',
    `X-WR-CALNAME:${escaped(name)}`,
    ...events.flatMap((event) => [
      'BEGIN:VEVENT',
      `UID:${escaped(event.uid)}`,
      `DTSTAMP:${year}${month}${day}T${hour}${minute}${second}Z`,
      `DTSTART;VALUE=DATE:${date(event.firstDay)}`,
      // The end is the first day that is no longer part of it.
      `DTEND;VALUE=DATE:${date(addDays(event.lastDay, 1))}`,
      `SUMMARY:${escaped(event.summary)}`,
      `DESCRIPTION:${escaped(event.description)}`,
      `CATEGORIES:${escaped(event.category)}`,
      'TRANSP:TRANSPARENT',
      'END:VEVENT',
    ]),
    'END:VCALENDAR',
  ];
  return lines.map((line) => `${folded(line)}\r\n`).join('');
}

/** RFC 5545, 3.3.11: backslash, semicolon, comma and line breaks; other control characters are not allowed and go. */
function escaped(text: string): string {
  return (
    text
      .replace(/[\\;,]/g, '\\$&')
      .replace(/\r\n|\r|\n/g, '\\n')
      // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters to take out
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/g, '')
  );
}

/** RFC 5545, 3.1: at most 75 octets a line, the rest on lines that begin with a blank; no character is cut in two. */
function folded(line: string): string {
  const lines: string[] = [];
  let current = '';
  let octets = 0;
  for (const character of line) {
    const size = octetsOf(character);
    if (octets + size > OCTETS_PER_LINE) {
      lines.push(current);
      current = ' ';
      octets = 1;
    }
    current += character;
    octets += size;
  }
  return [...lines, current].join('\r\n');
}

function octetsOf(character: string): number {
  const code = character.codePointAt(0)!;
  return code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
}
