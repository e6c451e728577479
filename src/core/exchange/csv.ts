import Papa from 'papaparse';

/** A text that a spreadsheet would take for a formula, quotes it was guarded with included. */
const FORMULA = /^'*[=+\-@\t\r＝＋－＠]/;
const PLAIN_NUMBER = /^-?\d+(\.\d+)?$/;

/** Texts a spreadsheet would run as a formula get an apostrophe before them; plain negative numbers do not. */
export const guardFormula = (text: string): string =>
  FORMULA.test(text) && !PLAIN_NUMBER.test(text) ? `'${text}` : text;

/** The text as it was before `guardFormula`. */
export const unguardFormula = (text: string): string =>
  text.startsWith("'") && FORMULA.test(text.slice(1)) ? text.slice(1) : text;

/** Rows as CSV by RFC 4180: commas, CRLF, quotes where needed; ends with a line break. */
export function writeCsv(columns: readonly string[], rows: readonly (readonly string[])[]): string {
  const cells = [[...columns], ...rows.map((row) => row.map(guardFormula))];
  return `${Papa.unparse(cells, { newline: '\r\n' })}\r\n`;
}

export interface CsvTable {
  /** Names in the first row, trimmed. */
  readonly columns: readonly string[];
  /** The other rows that are not blank, cells as text, with the number of the row in the file (the head is row 1). */
  readonly rows: readonly { readonly row: number; readonly cells: readonly string[] }[];
  /** What parts the cells; ';' goes with decimal commas. */
  readonly delimiter: string;
}

/**
 * Reads CSV as spreadsheets and statistics programs write it: comma, semicolon or tab, with or without a byte-order
 * mark, any line break.
 */
export function readCsv(text: string): CsvTable {
  const plain = text.replace(/^\uFEFF/, '');
  const delimiter = delimiterOf(plain);
  const parsed = Papa.parse<string[]>(plain, { delimiter });
  const [head = [], ...rows] = parsed.data;
  return {
    columns: head.map((name) => name.trim()),
    rows: rows
      .map((cells, index) => ({ row: index + 2, cells: cells.map(unguardFormula) }))
      .filter(({ cells }) => cells.some((cell) => cell.trim() !== '')),
    delimiter,
  };
}

/** The mark that stands most often in the first row; names of columns hold none of them. */
function delimiterOf(text: string): string {
  const head = /^[^\r\n]*/.exec(text)![0];
  const count = (mark: string): number => head.split(mark).length;
  return [',', ';', '\t'].reduce((best, mark) => (count(mark) > count(best) ? mark : best));
}
