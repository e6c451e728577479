/** A row from its parts; smaller is better unless said otherwise. */
export const row = (
  what: string,
  value: number | null,
  unit: string,
  must: number,
  goal: number | null,
  better: 'smaller' | 'larger' = 'smaller',
): TargetRow => ({ what, value, unit, must, goal, smallerIsBetter: better === 'smaller' });

/** A row that another command measures, or a hand. @param note which */
export const elsewhere = (
  what: string,
  unit: string,
  must: number,
  goal: number | null,
  note: string,
): TargetRow => ({ ...row(what, null, unit, must, goal), note });

/** One line of the benchmark's table: a measured value beside the bar it is held to. */
export interface TargetRow {
  readonly what: string;
  /** null: not measured, `note` says why. */
  readonly value: number | null;
  readonly unit: string;
  readonly must: number;
  readonly goal: number | null;
  /** Whether a smaller value is better. */
  readonly smallerIsBetter: boolean;
  readonly note?: string;
}

const reached = ({ value, smallerIsBetter }: TargetRow, bar: number) =>
  value !== null && (smallerIsBetter ? value <= bar : value >= bar);

export const verdict = (row: TargetRow): string =>
  row.value === null
    ? 'not measured'
    : row.goal !== null && reached(row, row.goal)
      ? 'goal'
      : reached(row, row.must)
        ? 'must'
        : 'SHORT';

/** The rows as an aligned table. */
export function targetTable(rows: readonly TargetRow[]): string {
  const number = (value: number | null) => (value === null ? '-' : String(Number(value.toPrecision(3))));
  const cells = rows.map((row) => [
    row.what,
    `${number(row.value)} ${row.unit}`.trim(),
    `${row.smallerIsBetter ? '<=' : '>='} ${number(row.must)}`,
    row.goal === null ? '' : number(row.goal),
    verdict(row),
    row.note ?? '',
  ]);
  const head = ['', 'measured', 'must', 'goal', '', ''];
  const widths = head.map((title, i) => Math.max(title.length, ...cells.map((line) => line[i]!.length)));
  return [head, ...cells]
    .map((line) =>
      line
        .map((cell, i) => cell.padEnd(widths[i]!))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
