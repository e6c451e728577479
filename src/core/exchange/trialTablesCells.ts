import { isCalendarDay } from '../trial/calendarDay.ts';
import type { Checked, FieldFault } from '../trial/fieldProblem.ts';
import { readCsv } from './csv.ts';

/** Something in a table that cannot be, with its place: rows count from 1, the row of column names. */
export interface TableProblem {
  /** Null where the table as a whole is meant. */
  readonly row: number | null;
  readonly column: string | null;
  /** What stands in the cell. */
  readonly met: string | null;
  readonly fault: TableFault;
}

export type TableFault =
  | FieldFault
  | { readonly code: 'table-empty' }
  | { readonly code: 'column-missing'; readonly found: readonly string[] }
  | { readonly code: 'column-twice' }
  | { readonly code: 'too-many-rows'; readonly rows: number; readonly most: number }
  | { readonly code: 'too-many-cells'; readonly cells: number; readonly columns: number }
  | { readonly code: 'not-a-number' }
  | { readonly code: 'not-a-timing' }
  | { readonly code: 'done-and-left-out'; readonly doneOn: string }
  | { readonly code: 'said-before'; readonly firstRow: number }
  | { readonly code: 'differs-from-row'; readonly firstRow: number; readonly before: string };

export interface Column {
  readonly name: string;
  readonly required: boolean;
}

/** A row with its cells by name of column; a column that the table does not have reads as empty. */
export interface TableRow {
  readonly row: number;
  readonly cell: (column: string) => string;
}

export interface TrialTable {
  readonly rows: readonly TableRow[];
  readonly has: (column: string) => boolean;
  /** Names of all columns, as they are looked up. */
  readonly columns: readonly string[];
  /** Columns this table knows nothing about; they are left aside, and the user is told. */
  readonly leftAside: readonly string[];
}

/**
 * Opens a CSV table with named columns. Names are compared without letter case, blanks and "-" as "_".
 *
 * @param open a further column is known if this says so
 */
export function openTable(
  text: string,
  columns: readonly Column[],
  mostRows: number,
  open: (column: string) => boolean = () => false,
): Checked<TrialTable, TableProblem> {
  const table = readCsv(text);
  const names = table.columns.map(columnName);
  const whole = (column: string | null, fault: TableFault): TableProblem => ({
    row: column === null ? null : 1,
    column,
    met: null,
    fault,
  });
  if (names.every((name) => name === '')) {
    return { ok: false, problems: [whole(null, { code: 'table-empty' })] };
  }
  const problems: TableProblem[] = [];
  const known = (name: string) => columns.some((column) => column.name === name) || open(name);
  for (const { name, required } of columns) {
    if (required && !names.includes(name)) {
      problems.push(whole(name, { code: 'column-missing', found: table.columns }));
    }
  }
  names.forEach((name, index) => {
    if (known(name) && names.indexOf(name) !== index) problems.push(whole(name, { code: 'column-twice' }));
  });
  const { rows } = table;
  if (rows.length === 0) problems.push(whole(null, { code: 'table-empty' }));
  if (rows.length > mostRows) {
    problems.push(whole(null, { code: 'too-many-rows', rows: rows.length, most: mostRows }));
  }
  for (const { row, cells } of rows) {
    if (cells.slice(names.length).some((cell) => cell.trim() !== '')) {
      const fault = { code: 'too-many-cells', cells: cells.length, columns: names.length } as const;
      problems.push({ row, column: null, met: cells.at(-1)!, fault });
    }
  }
  if (problems.length > 0) return { ok: false, problems };
  return {
    ok: true,
    value: {
      rows: rows.map(({ row, cells }) => ({
        row,
        cell: (column) => (cells[names.indexOf(column)] ?? '').trim(),
      })),
      has: (column) => names.includes(column),
      columns: names,
      leftAside: table.columns.filter((name, index) => name !== '' && !known(names[index]!)),
    },
  };
}

export const columnName = (written: string): string =>
  written
    .trim()
    .toLowerCase()
    .replace(/[\s-]+/g, '_');

/** Reads cells of a row and gathers what is wrong with them; a cell with a problem reads as null. */
export interface CellReader {
  readonly text: (column: string) => string | null;
  readonly number: (column: string) => number | null;
  readonly whole: (column: string) => number | null;
  readonly day: (column: string) => string | null;
  readonly problem: (column: string, fault: TableFault) => void;
}

/** An empty cell is null without a problem; whether it may be empty is for the caller to say. */
export function cellReader({ row, cell }: TableRow, problems: TableProblem[]): CellReader {
  const problem = (column: string, fault: TableFault) => {
    problems.push({ row, column, met: cell(column), fault });
  };
  const text = (column: string) => (cell(column) === '' ? null : cell(column));
  const number = (column: string) => {
    const written = text(column);
    if (written === null) return null;
    if (/^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/.test(written)) return Number(written.replace(',', '.'));
    problem(column, { code: 'not-a-number' });
    return null;
  };
  const whole = (column: string) => {
    const value = number(column);
    if (value === null || Number.isInteger(value)) return value;
    problem(column, { code: 'not-whole' });
    return null;
  };
  const day = (column: string) => {
    const written = text(column);
    if (written === null || isCalendarDay(written)) return written;
    problem(column, { code: 'not-a-day' });
    return null;
  };
  return { text, number, whole, day, problem };
}
