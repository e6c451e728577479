import Papa from 'papaparse';
import type { RatedObservation } from '../statistics/compareTrial.ts';
import { type Note, note } from '../statistics/note.ts';
import { isCalendarDay } from '../trial/calendarDay.ts';
import { plotKey } from '../trial/plot.ts';
import { unguardFormula } from './csv.ts';
import type { ObservationProblem } from './observationProblem.ts';
import { PLACE_COLUMNS, plotRegister, type TrialPlot } from './observationTablePlots.ts';

/** What of a tidy table is wanted. */
export interface ObservationTableOptions {
  /** Column with the rated value. @default 'cover_percent' */
  readonly valueColumn?: string;
  /** Least and largest value the scale allows. @default 0..100 for cover_percent, else none */
  readonly scale?: readonly [least: number, most: number] | null;
  /** Only this class. @default all */
  readonly classId?: string | null;
  /** Only figures made this way; needed where the table holds several. @default null */
  readonly method?: string | null;
  /** Columns with levels of treatment factors. @default none */
  readonly factors?: readonly string[];
  /** Plots of the trial, by `plotKey` of their name; they fill empty cells and must not contradict filled ones. @default none */
  readonly plots?: ReadonlyMap<string, TrialPlot> | null;
  /** Classes of the trial; others are then an error. @default any */
  readonly classes?: readonly string[] | null;
}

/** What was read beside the observations, to be told to the reader. */
export interface ObservationTable {
  readonly observations: readonly RatedObservation[];
  /** Rows without a value: plots not rated. */
  readonly emptyValues: number;
  /** Most and fewest rows that make one observation. */
  readonly subsamples: { readonly fewest: number; readonly most: number };
  /** The method the figures were made by; null where the table does not say. */
  readonly method: string | null;
  readonly classes: readonly string[];
  /** Rows taken that carry flags (doubts of the measurement), and how often each flag stands there. */
  readonly flagged: { readonly rows: number; readonly flags: ReadonlyMap<string, number> };
}

export type ObservationReading =
  | { readonly ok: true; readonly table: ObservationTable }
  /** The first problems and how many there are in all. */
  | { readonly ok: false; readonly problems: readonly ObservationProblem[]; readonly count: number };

/** So many problems are kept to be told; all are counted. */
const MOST_PROBLEMS = 20;
/** What statistics programs write for a value that is not known. */
const MISSING = new Set(['', 'NA', 'N/A', 'NaN', '.', '-']);
const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;
const COVER_PERCENT = 'cover_percent';
/** Stands between the parts of a key; no cell of a table holds it. */
const SEPARATOR = '\u0000';

/**
 * Reads a tidy table, one value a row, as observations of plots; several rows of one plot, date and class are averaged.
 *
 * Comma, semicolon or tab; decimal commas with semicolons; columns in any order, others left aside. Rows are taken one by one,
 * so a million rows need the memory of the text and of the plots, not of the cells.
 */
export function readObservationTable(
  text: string,
  options: ObservationTableOptions = {},
): ObservationReading {
  const reader = tableReader(options);
  Papa.parse<string[]>(text.replace(/^\uFEFF/, ''), {
    delimitersToGuess: [',', ';', '\t'],
    step: ({ data, errors, meta }) => {
      reader.row(
        data,
        meta.delimiter,
        errors.some(({ type }) => type === 'Quotes'),
      );
    },
  });
  return reader.finish();
}

/** Rows of one plot, date and class so far. */
interface Cell {
  sum: number;
  count: number;
}

function tableReader(options: ObservationTableOptions) {
  const {
    valueColumn = COVER_PERCENT,
    classId = null,
    method = null,
    factors = [],
    plots: trialPlots = null,
  } = options;
  const scale = options.scale ?? (valueColumn === COVER_PERCENT ? ([0, 100] as const) : null);
  const problems: ObservationProblem[] = [];
  let problemCount = 0;
  let rowNumber = 0;
  let head: Map<string, number> | null = null;
  let unusable = false;
  let emptyValues = 0;
  let flaggedRows = 0;
  const cells = new Map<string, Map<string, Cell>>();
  const seen = new Map<string, number>();
  const methods = new Map<string, number>();
  const classes = new Set<string>();
  const flags = new Map<string, number>();
  const days = new Map<string, boolean>();
  const report = (problem: ObservationProblem): void => {
    problemCount += 1;
    if (problems.length < MOST_PROBLEMS) problems.push(problem);
  };

  const plots = plotRegister(trialPlots, factors, report);

  /** A million rows hold few different days. */
  const isDay = (text: string): boolean => {
    const known = days.get(text) ?? isCalendarDay(text);
    days.set(text, known);
    return known;
  };

  const readHead = (names: readonly string[]): void => {
    const found = names.map((name) => name.trim());
    const lower = found.map((name) => name.toLowerCase());
    const required = ['plot', 'rating_date', valueColumn, ...factors];
    if (valueColumn === COVER_PERCENT) required.push('class');
    if (!trialPlots) required.push('treatment');
    for (const column of required) {
      if (!lower.includes(column.toLowerCase())) report({ code: 'missing-column', column, found });
    }
    const wanted = new Set([...required, ...PLACE_COLUMNS, 'class', 'method', 'photo', 'quadrat', 'flags']);
    for (const column of wanted) {
      if (lower.filter((name) => name === column.toLowerCase()).length > 1)
        report({ code: 'column-twice', column });
    }
    unusable = problemCount > 0;
    // names as asked for, whatever their letter case in the file
    head = new Map(
      [...wanted].flatMap((name) => {
        const index = lower.indexOf(name.toLowerCase());
        return index < 0 ? [] : [[name, index] as const];
      }),
    );
  };

  const readNumber = (met: string, delimiter: string): number | null => {
    const at = { row: rowNumber, column: valueColumn, met };
    const plain = delimiter === ';' ? met.replace(',', '.') : met;
    const value = NUMBER.test(plain) ? Number(plain) : Number.NaN;
    if (!Number.isFinite(value)) report({ code: 'not-a-number', ...at });
    else if (scale && !(value >= scale[0] && value <= scale[1])) {
      report({ code: 'out-of-scale', ...at, least: scale[0], most: scale[1] });
    } else return value;
    return null;
  };

  /** A photo (or frame) of a plot can be there once; rows that name neither are subsamples. */
  const isRepeated = (plot: string, parts: readonly string[]): boolean => {
    const what = parts[3] || parts[4] || '';
    if (what === '') return false;
    const key = [plotKey(plot), ...parts].join(SEPARATOR);
    const beforeRow = seen.get(key);
    if (beforeRow === undefined) seen.set(key, rowNumber);
    else report({ code: 'row-twice', row: rowNumber, beforeRow, plot, what });
    return beforeRow !== undefined;
  };

  const readRow = (row: readonly string[], delimiter: string): void => {
    const cell = (column: string): string => {
      const index = head!.get(column);
      const text = index === undefined ? '' : (row[index] ?? '').trim();
      return text.startsWith("'") ? unguardFormula(text) : text;
    };
    const plot = cell('plot');
    const date = cell('rating_date');
    const ownClass = head!.has('class') ? cell('class') : '';
    const ownMethod = cell('method');
    const before = problemCount;
    if (plot === '') report({ code: 'empty-cell', row: rowNumber, column: 'plot' });
    if (date === '') report({ code: 'empty-cell', row: rowNumber, column: 'rating_date' });
    else if (!isDay(date)) report({ code: 'not-a-day', row: rowNumber, column: 'rating_date', met: date });
    if (head!.has('class') && ownClass === '')
      report({ code: 'empty-cell', row: rowNumber, column: 'class' });
    if (options.classes && ownClass !== '' && !options.classes.includes(ownClass)) {
      report({ code: 'unknown-class', row: rowNumber, met: ownClass, known: options.classes });
    }
    const met = cell(valueColumn);
    const value = MISSING.has(met) ? null : readNumber(met, delimiter);
    if (ownClass !== '') classes.add(ownClass);
    if (plot !== '') plots.read(plot, rowNumber, cell);
    if (problemCount > before) return;
    if (classId !== null && ownClass !== classId) return;
    methods.set(ownMethod, (methods.get(ownMethod) ?? 0) + 1);
    if (method !== null && ownMethod !== method) return;
    if (isRepeated(plot, [date, ownClass, ownMethod, cell('photo'), cell('quadrat')])) return;
    if (value === null) {
      emptyValues += 1;
      return;
    }
    noteFlags(cell('flags'));
    add(date + SEPARATOR + ownClass, plotKey(plot), value);
  };

  const noteFlags = (text: string): void => {
    if (text === '') return;
    flaggedRows += 1;
    for (const flag of text.split(';')) flags.set(flag.trim(), (flags.get(flag.trim()) ?? 0) + 1);
  };

  const add = (group: string, plot: string, value: number): void => {
    let sums = cells.get(group);
    if (!sums) {
      sums = new Map();
      cells.set(group, sums);
    }
    const own = sums.get(plot);
    if (own) {
      own.sum += value;
      own.count += 1;
    } else sums.set(plot, { sum: value, count: 1 });
  };

  const finish = (): ObservationReading => {
    if (head === null) report({ code: 'empty-table' });
    else if (!unusable && problemCount === 0) {
      const named = [...methods.keys()].map((name) => name || '(empty)');
      if (classId !== null && !classes.has(classId)) {
        report({ code: 'unknown-class', row: null, met: classId, known: [...classes] });
      } else if (method !== null && !methods.has(method)) {
        report({ code: 'unknown-method', met: method, known: named });
      } else if (method === null && methods.size > 1) report({ code: 'several-methods', methods: named });
      else if (cells.size === 0) report({ code: 'no-rows' });
    }
    if (problemCount === 0 && head!.has('block')) plots.checkBlocks();
    if (problemCount > 0) return { ok: false, problems, count: problemCount };
    return { ok: true, table: toTable() };
  };

  const toTable = (): ObservationTable => {
    let fewest = Number.POSITIVE_INFINITY;
    let most = 0;
    const observations: RatedObservation[] = [];
    for (const [key, group] of cells) {
      const [ratingDate, ownClass] = key.split(SEPARATOR) as [string, string];
      for (const [own, { sum, count }] of group) {
        const { name, place, factors: levels } = plots.plot(own);
        fewest = Math.min(fewest, count);
        most = Math.max(most, count);
        observations.push({
          plot: name,
          treatment: place.treatment!,
          block: place.block,
          row: place.row,
          column: place.column,
          factors: Object.fromEntries(levels),
          ratingDate,
          classId: ownClass === '' ? null : ownClass,
          value: sum / count,
        });
      }
    }
    const only = method ?? [...methods.keys()][0] ?? '';
    return {
      observations,
      emptyValues,
      subsamples: { fewest, most },
      method: only === '' ? null : only,
      classes: [...classes],
      flagged: { rows: flaggedRows, flags },
    };
  };

  return {
    row: (row: readonly string[], delimiter: string, brokenQuotes: boolean): void => {
      rowNumber += 1;
      if (unusable) return;
      if (row.every(isBlank)) return;
      if (brokenQuotes) report({ code: 'broken-quotes', row: rowNumber });
      if (head === null) readHead(row);
      else readRow(row, delimiter);
    },
    finish,
  };
}

const isBlank = (cell: string): boolean => cell === '' || cell.trim() === '';

/** What a reader has to know about the rows behind a comparison. */
export function tableNotes({ subsamples, emptyValues, method, flagged }: ObservationTable): Note[] {
  return [
    ...(method === null ? [] : [note('method-used', { method })]),
    ...(subsamples.most > 1 ? [note('subsamples-averaged', { ...subsamples })] : []),
    ...(flagged.rows > 0
      ? [
          note('flagged-rows', {
            count: flagged.rows,
            flags: [...flagged.flags].map(([flag, n]) => `${flag} ${n}`),
          }),
        ]
      : []),
    ...(emptyValues > 0 ? [note('empty-values', { count: emptyValues })] : []),
  ];
}
