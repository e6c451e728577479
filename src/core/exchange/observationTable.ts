import Papa from 'papaparse';
import type { RatedObservation } from '../statistics/compareTrial.ts';
import { type Note, note } from '../statistics/note.ts';
import { isCalendarDay } from '../trial/calendarDay.ts';
import { plotKey } from '../trial/plot.ts';
import { unguardFormula } from './csv.ts';

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

/** Where a plot lies and what it got. */
export interface TrialPlot {
  readonly treatment: string;
  readonly block: string | null;
  readonly row: string | null;
  readonly column: string | null;
}

/** Something in the table that cannot be. Rows count from 1, the row of column names. */
export type ObservationProblem =
  | { readonly code: 'empty-table' }
  | { readonly code: 'no-rows' }
  | { readonly code: 'missing-column'; readonly column: string; readonly found: readonly string[] }
  | { readonly code: 'column-twice'; readonly column: string }
  | { readonly code: 'broken-quotes'; readonly row: number }
  | { readonly code: 'empty-cell'; readonly row: number; readonly column: string }
  | { readonly code: 'not-a-number'; readonly row: number; readonly column: string; readonly met: string }
  | {
      readonly code: 'out-of-scale';
      readonly row: number;
      readonly column: string;
      readonly met: string;
      readonly least: number;
      readonly most: number;
    }
  | { readonly code: 'not-a-day'; readonly row: number; readonly column: string; readonly met: string }
  | {
      readonly code: 'plot-differs';
      readonly row: number;
      readonly column: string;
      readonly plot: string;
      readonly met: string;
      readonly before: string;
      readonly beforeRow: number | null;
    }
  | {
      readonly code: 'row-twice';
      readonly row: number;
      readonly beforeRow: number;
      readonly plot: string;
      readonly what: string;
    }
  | {
      readonly code: 'unknown-class';
      readonly row: number | null;
      readonly met: string;
      readonly known: readonly string[];
    }
  | { readonly code: 'unknown-plot'; readonly row: number; readonly met: string }
  | { readonly code: 'block-missing'; readonly plot: string }
  | { readonly code: 'several-methods'; readonly methods: readonly string[] }
  | { readonly code: 'unknown-method'; readonly met: string; readonly known: readonly string[] };

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

interface Cell {
  sum: number;
  count: number;
}

interface KnownPlot {
  /** As it was first written. */
  readonly name: string;
  readonly place: Record<PlaceColumn, string | null>;
  readonly factors: Record<string, string>;
  /** Row each part was first read in; null: the trial. */
  readonly rows: Record<string, number | null>;
}

const PLACE_COLUMNS = ['treatment', 'block', 'row', 'column'] as const;
type PlaceColumn = (typeof PLACE_COLUMNS)[number];

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
  const knownPlots = new Map<string, KnownPlot>();
  const cells = new Map<string, Map<string, Cell>>();
  const seen = new Map<string, number>();
  const methods = new Map<string, number>();
  const classes = new Set<string>();
  const days = new Map<string, boolean>();
  const report = (problem: ObservationProblem): void => {
    problemCount += 1;
    if (problems.length < MOST_PROBLEMS) problems.push(problem);
  };

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
    const wanted = new Set([...required, ...PLACE_COLUMNS, 'class', 'method', 'photo', 'quadrat']);
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
    const plain = delimiter === ';' ? met.replace(',', '.') : met;
    if (!NUMBER.test(plain)) {
      report({ code: 'not-a-number', row: rowNumber, column: valueColumn, met });
      return null;
    }
    const value = Number(plain);
    if (!Number.isFinite(value)) {
      report({ code: 'not-a-number', row: rowNumber, column: valueColumn, met });
      return null;
    }
    if (scale && !(value >= scale[0] && value <= scale[1])) {
      report({
        code: 'out-of-scale',
        row: rowNumber,
        column: valueColumn,
        met,
        least: scale[0],
        most: scale[1],
      });
      return null;
    }
    return value;
  };

  const startPlot = (plot: string): KnownPlot | null => {
    const known = knownPlots.get(plotKey(plot));
    if (known) return known;
    const trial = trialPlots?.get(plotKey(plot));
    if (trialPlots && !trial) {
      report({ code: 'unknown-plot', row: rowNumber, met: plot });
      return null;
    }
    const place = trial ?? { treatment: null, block: null, row: null, column: null };
    const fresh = { name: plot, place: { ...place }, factors: {}, rows: {} };
    knownPlots.set(plotKey(plot), fresh);
    return fresh;
  };

  /** Compares a cell with what is known of the plot, or learns it. */
  const settle = (known: KnownPlot, plot: string, column: string, met: string): void => {
    const isPlace = (PLACE_COLUMNS as readonly string[]).includes(column);
    const store: Record<string, string | null> = isPlace ? known.place : known.factors;
    const before = store[column] ?? null;
    if (met === '') return;
    if (before === null) {
      store[column] = met;
      known.rows[column] = rowNumber;
    } else if (before !== met) {
      report({
        code: 'plot-differs',
        row: rowNumber,
        column,
        plot,
        met,
        before,
        beforeRow: known.rows[column] ?? null,
      });
    }
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
    const known = plot === '' ? null : startPlot(plot);
    if (known) {
      for (const column of PLACE_COLUMNS) settle(known, plot, column, cell(column));
      for (const factor of factors) {
        if (cell(factor) === '') report({ code: 'empty-cell', row: rowNumber, column: factor });
        else settle(known, plot, factor, cell(factor));
      }
      if (known.place.treatment === null) report({ code: 'empty-cell', row: rowNumber, column: 'treatment' });
    }
    if (problemCount > before) return;
    if (classId !== null && ownClass !== classId) return;
    methods.set(ownMethod, (methods.get(ownMethod) ?? 0) + 1);
    if (method !== null && ownMethod !== method) return;
    const photo = cell('photo');
    const quadrat = cell('quadrat');
    if (photo !== '' || quadrat !== '') {
      const key = [plotKey(plot), date, ownClass, ownMethod, photo, quadrat].join(SEPARATOR);
      const beforeRow = seen.get(key);
      if (beforeRow !== undefined) {
        report({ code: 'row-twice', row: rowNumber, beforeRow, plot, what: photo || quadrat });
        return;
      }
      seen.set(key, rowNumber);
    }
    if (value === null) {
      emptyValues += 1;
      return;
    }
    const key = date + SEPARATOR + ownClass;
    let group = cells.get(key);
    if (!group) {
      group = new Map();
      cells.set(key, group);
    }
    const own = plotKey(plot);
    const sum = group.get(own);
    if (sum) {
      sum.sum += value;
      sum.count += 1;
    } else group.set(own, { sum: value, count: 1 });
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
    if (problemCount === 0) checkBlocks(knownPlots, head!.has('block'), report);
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
        const { name, place, factors } = knownPlots.get(own)!;
        fewest = Math.min(fewest, count);
        most = Math.max(most, count);
        observations.push({
          plot: name,
          treatment: place.treatment!,
          block: place.block,
          row: place.row,
          column: place.column,
          factors,
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

/** Blocks for some plots only would quietly change the design. */
function checkBlocks(
  plots: ReadonlyMap<string, KnownPlot>,
  hasColumn: boolean,
  report: (problem: ObservationProblem) => void,
): void {
  const without = [...plots.values()].filter(({ place }) => place.block === null);
  if (!hasColumn || without.length === 0 || without.length === plots.size) return;
  for (const { name } of without) report({ code: 'block-missing', plot: name });
}

/** What a reader has to know about the rows behind a comparison. */
export function tableNotes({ subsamples, emptyValues, method }: ObservationTable): Note[] {
  return [
    ...(method === null ? [] : [note('method-used', { method })]),
    ...(subsamples.most > 1 ? [note('subsamples-averaged', { ...subsamples })] : []),
    ...(emptyValues > 0 ? [note('empty-values', { count: emptyValues })] : []),
  ];
}
