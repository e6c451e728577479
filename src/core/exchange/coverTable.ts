import { PERCENT_DECIMALS } from '../cover/writtenPercent.ts';
import { isCalendarDay } from '../trial/calendarDay.ts';
import { readCsv, writeCsv } from './csv.ts';

/** How a figure came about. `adjusted` is corrected for the mask's errors, `visual` rated by eye. */
export const COVER_METHODS = ['automatic', 'corrected', 'points', 'adjusted', 'visual'] as const;
export type CoverMethod = (typeof COVER_METHODS)[number];

/** One photo and class of a cover table; null where the cell is empty, which means not known. */
export interface CoverRow {
  readonly photo: string | null;
  readonly plot: string | null;
  readonly quadrat: string | null;
  readonly block: string | null;
  readonly treatment: string | null;
  /** YYYY-MM-DD. */
  readonly ratingDate: string | null;
  readonly classId: string;
  /** Plain count of pixels with the class. */
  readonly pixels: number | null;
  /** Share of measured ground area, 0..100. */
  readonly coverPercent: number | null;
  /** 95 % interval, 0..100. */
  readonly coverLow: number | null;
  readonly coverHigh: number | null;
  readonly method: CoverMethod | null;
  readonly model: string | null;
  readonly flags: readonly string[];
}

export const COVER_COLUMNS = [
  'photo',
  'plot',
  'quadrat',
  'block',
  'treatment',
  'rating_date',
  'class',
  'pixels',
  'cover_percent',
  'cover_low',
  'cover_high',
  'method',
  'model',
  'flags',
] as const;
export type CoverColumn = (typeof COVER_COLUMNS)[number];

/** The table as CSV; docs/files.md describes it. */
export function writeCoverTable(rows: readonly CoverRow[]): string {
  return writeCsv(COVER_COLUMNS, rows.map(coverCells));
}

/** The cells of one row, in the order of the columns. */
export function coverCells(row: CoverRow): string[] {
  const percent = (value: number | null): string => (value === null ? '' : value.toFixed(PERCENT_DECIMALS));
  return [
    row.photo ?? '',
    row.plot ?? '',
    row.quadrat ?? '',
    row.block ?? '',
    row.treatment ?? '',
    row.ratingDate ?? '',
    row.classId,
    row.pixels === null ? '' : String(row.pixels),
    percent(row.coverPercent),
    percent(row.coverLow),
    percent(row.coverHigh),
    row.method ?? '',
    row.model ?? '',
    row.flags.join(';'),
  ];
}

export type CoverTableProblem =
  | { readonly code: 'column-missing'; readonly column: CoverColumn; readonly found: readonly string[] }
  | { readonly code: 'column-twice'; readonly column: CoverColumn }
  /** The row is left out; `allowed` names a sentence of the catalogue. */
  | {
      readonly code: 'bad-cell';
      readonly row: number;
      readonly column: CoverColumn;
      readonly met: string;
      readonly allowed: 'percent' | 'count' | 'day' | 'method' | 'text';
    };

export interface CoverTable {
  /** Rows in the order of the file; one with a bad cell is not among them. */
  readonly rows: readonly (CoverRow & { readonly row: number })[];
  readonly problems: readonly CoverTableProblem[];
}

/** What statistics programs write for a value that is not known. */
const MISSING = ['', 'NA', 'N/A', 'NaN', '.', '-'];

/**
 * Reads a cover table, or any tidy table with the same column names: columns in any order, others left aside, missing
 * ones empty. A row with a cell that cannot be is left out and named; the rest is read.
 *
 * @param required columns that must be there; without one there are no rows
 */
export function readCoverTable(
  text: string,
  required: readonly CoverColumn[] = ['class', 'cover_percent'],
): CoverTable {
  const table = readCsv(text);
  const names = table.columns.map((name) => name.toLowerCase());
  const headProblems: CoverTableProblem[] = [
    ...required
      .filter((column) => !names.includes(column))
      .map((column) => ({ code: 'column-missing', column, found: table.columns }) as const),
    ...COVER_COLUMNS.filter((column) => names.filter((name) => name === column).length > 1).map(
      (column) => ({ code: 'column-twice', column }) as const,
    ),
  ];
  if (headProblems.length > 0) return { rows: [], problems: headProblems };

  const problems: CoverTableProblem[] = [];
  const rows: (CoverRow & { row: number })[] = [];
  for (const { row, cells } of table.rows) {
    const before = problems.length;
    const cell = (column: CoverColumn): string => cells[names.indexOf(column)]?.trim() ?? '';
    const bad = (
      column: CoverColumn,
      allowed: Extract<CoverTableProblem, { code: 'bad-cell' }>['allowed'],
    ) => {
      problems.push({ code: 'bad-cell', row, column, met: cell(column), allowed });
      return null;
    };
    const text = (column: CoverColumn): string | null => (cell(column) === '' ? null : cell(column));
    const number = (column: CoverColumn, most: number, allowed: 'percent' | 'count'): number | null => {
      const met = cell(column);
      if (MISSING.includes(met)) return null;
      const plain = table.delimiter === ';' ? met.replace(',', '.') : met;
      const value = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain) ? Number(plain) : Number.NaN;
      const fits = value >= 0 && value <= most && (allowed === 'percent' || Number.isInteger(value));
      return fits ? value : bad(column, allowed);
    };
    const day = text('rating_date');
    const method = text('method');
    const classId = text('class');
    const read: CoverRow = {
      photo: text('photo'),
      plot: text('plot'),
      quadrat: text('quadrat'),
      block: text('block'),
      treatment: text('treatment'),
      ratingDate: day === null || isCalendarDay(day) ? day : bad('rating_date', 'day'),
      classId: classId ?? bad('class', 'text') ?? '',
      pixels: number('pixels', Number.MAX_SAFE_INTEGER, 'count'),
      coverPercent: number('cover_percent', 100, 'percent'),
      coverLow: number('cover_low', 100, 'percent'),
      coverHigh: number('cover_high', 100, 'percent'),
      method: method === null || isMethod(method) ? method : bad('method', 'method'),
      model: text('model'),
      flags: cell('flags')
        .split(';')
        .map((flag) => flag.trim())
        .filter((flag) => flag !== ''),
    };
    if (problems.length === before) rows.push({ row, ...read });
  }
  return { rows, problems };
}

const isMethod = (text: string): text is CoverMethod => (COVER_METHODS as readonly string[]).includes(text);
