import { type CalendarDay, isCalendarDay } from './calendarDay.ts';
import { plotKey } from './plot.ts';

/**
 * A pattern for file names, written by the user: text stands for itself, words in braces for what is to be read.
 *
 * - `{plot}` a plot of the trial
 * - `{date}` a day, year first: 2027-04-12, 2027_04_12, 20270412
 * - `{time}` a local clock time: 091420, 09-14-20, 09_14_20
 * - `{place}` the place in the plot, 1 or 2 digits
 * - `{any}` anything, also nothing
 *
 * Letter case and the ending (.jpg) do not count. The whole name has to fit. A plot's name never begins or ends inside a
 * longer number or word, so `{any}{plot}` does not find plot 101 in "IMG_0101".
 */
export const DEFAULT_FILE_NAME_PATTERNS: readonly string[] = ['{date}_{plot}', '{date}_{plot}_{place}'];

export interface NameReading {
  readonly pattern: string;
  readonly plot: string | null;
  readonly place: number | null;
  readonly date: CalendarDay | null;
  /** HH:MM:SS, as written in the name. */
  readonly time: string | null;
}

export type NameProblem =
  | { readonly code: 'name-fits-no-pattern'; readonly patterns: readonly string[] }
  /** It fits but for the plot, which the trial does not have. */
  | { readonly code: 'name-with-unknown-plot'; readonly plot: string; readonly pattern: string }
  | { readonly code: 'name-with-impossible-date'; readonly date: string; readonly pattern: string };

export type NameResult =
  | { readonly ok: true; readonly reading: NameReading }
  | { readonly ok: false; readonly problem: NameProblem };

export type PatternProblem =
  | { readonly code: 'pattern-unknown-word'; readonly word: string; readonly words: readonly string[] }
  | { readonly code: 'pattern-word-twice'; readonly word: string }
  | { readonly code: 'pattern-brace-open'; readonly pattern: string }
  | { readonly code: 'pattern-without-words'; readonly pattern: string };

const WORDS = {
  date: String.raw`(?<!\d)(?<year>\d{4})(?<gap>[-_.]?)(?<month>\d{2})\k<gap>(?<day>\d{2})(?!\d)`,
  time: String.raw`(?<!\d)(?<hour>[01]\d|2[0-3])[-_.]?(?<minute>[0-5]\d)[-_.]?(?<second>[0-5]\d)(?!\d)`,
  place: String.raw`(?<!\d)(?<place>[1-9]\d?)(?!\d)`,
  any: '.*?',
} as const;

const WORD_NAMES = ['plot', ...Object.keys(WORDS)];

/** Why a pattern cannot be used; null if it can. */
export function patternProblem(pattern: string): PatternProblem | null {
  const words = [...pattern.matchAll(/\{([^{}]*)\}/g)].map((match) => match[1]!);
  if (/[{}]/.test(pattern.replace(/\{[^{}]*\}/g, ''))) return { code: 'pattern-brace-open', pattern };
  const unknown = words.find((word) => !WORD_NAMES.includes(word));
  if (unknown !== undefined) return { code: 'pattern-unknown-word', word: unknown, words: WORD_NAMES };
  const twice = words.find((word, index) => word !== 'any' && words.indexOf(word) !== index);
  if (twice !== undefined) return { code: 'pattern-word-twice', word: twice };
  return words.some((word) => word !== 'any') ? null : { code: 'pattern-without-words', pattern };
}

/** Reads many file names for the same plots: the patterns are made ready once. */
export interface NameReader {
  readonly read: (fileName: string) => NameResult;
}

/**
 * @param patterns tried in order; the first that fits counts
 * @throws RangeError for a pattern that `patternProblem` refuses
 */
export function fileNameReader(patterns: readonly string[], plots: readonly string[]): NameReader {
  const spelling = new Map(plots.map((plot) => [plotKey(plot), plot]));
  const known = [...plots].sort((a, b) => b.length - a.length).map(bounded);
  const compiled = patterns.map((pattern) => {
    const problem = patternProblem(pattern);
    if (problem)
      throw new RangeError(`a file name pattern that cannot be used: "${pattern}" (${problem.code})`);
    return {
      pattern,
      exact: expression(pattern, `(?<plot>${known.length > 0 ? known.join('|') : '(?!)'})`),
      loose: expression(pattern, '(?<plot>[a-z0-9][a-z0-9.-]{0,11})'),
    };
  });

  function read(fileName: string): NameResult {
    const stem = fileName.replace(/^.*[\\/]/, '').replace(/\.[a-z0-9]{2,5}$/i, '');
    let near: NameProblem | null = null;
    for (const { pattern, exact, loose } of compiled) {
      const groups = exact.exec(stem)?.groups;
      const date = groups ? dateOf(groups) : null;
      if (groups && (date === null || isCalendarDay(date))) {
        return { ok: true, reading: readingOf(pattern, groups, date, spelling) };
      }
      if (groups) {
        near ??= { code: 'name-with-impossible-date', date: date!, pattern };
        continue;
      }
      const plot = loose.exec(stem)?.groups?.plot;
      if (plot !== undefined) near ??= { code: 'name-with-unknown-plot', plot, pattern };
    }
    return { ok: false, problem: near ?? { code: 'name-fits-no-pattern', patterns } };
  }

  return { read };
}

type Groups = Readonly<Record<string, string | undefined>>;

function dateOf({ year, month, day }: Groups): string | null {
  return year === undefined ? null : `${year}-${month}-${day}`;
}

function readingOf(
  pattern: string,
  { plot, place, hour, minute, second }: Groups,
  date: CalendarDay | null,
  spelling: ReadonlyMap<string, string>,
): NameReading {
  return {
    pattern,
    plot: plot === undefined ? null : spelling.get(plotKey(plot))!,
    place: place === undefined ? null : Number(place),
    date,
    time: hour === undefined ? null : `${hour}:${minute}:${second}`,
  };
}

const escaped = (text: string) => text.replace(/[\\^$.*+?()[\]{}|/-]/g, '\\$&');

/** A plot's name that does not go on in the same kind of character before or after it. */
function bounded(plot: string): string {
  const sameKind = (character: string) => (/\d/.test(character) ? String.raw`\d` : '[a-z]');
  return `(?<!${sameKind(plot[0]!)})${escaped(plot)}(?!${sameKind(plot.at(-1)!)})`;
}

function expression(pattern: string, plot: string): RegExp {
  const source = pattern
    .split(/(\{[^{}]*\})/)
    .map((part) => {
      const word = /^\{(.*)\}$/.exec(part)?.[1];
      if (word === undefined) return escaped(part);
      return word === 'plot' ? plot : WORDS[word as keyof typeof WORDS];
    })
    .join('');
  return new RegExp(`^${source}$`, 'i');
}

/** What a pattern makes of some file names, to show while it is being written. */
export function previewPattern(
  pattern: string,
  fileNames: readonly string[],
  plots: readonly string[],
): { readonly fileName: string; readonly result: NameResult }[] {
  const reader = fileNameReader([pattern], plots);
  return fileNames.map((fileName) => ({ fileName, result: reader.read(fileName) }));
}
