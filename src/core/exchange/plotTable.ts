import { checkRecord } from '../trial/checkRecord.ts';
import type { Checked } from '../trial/fieldProblem.ts';
import { groupBy } from '../trial/groupBy.ts';
import type { LayoutDesign } from '../trial/layout.ts';
import { type LayoutProblem, layoutProblems } from '../trial/layoutProblems.ts';
import { MOST_PLOTS, type Plot, plotSchema } from '../trial/plot.ts';
import { writeCsv } from './csv.ts';
import { cellReader, openTable, type TableProblem } from './trialTablesCells.ts';

/** A table of plots, read whole. */
export interface PlotTable {
  readonly plots: readonly Plot[];
  /** Treatments as they come in the table, with names where it gives some. */
  readonly treatments: readonly { readonly number: number; readonly name: string | null }[];
  readonly leftAside: readonly string[];
}

export type PlotTableProblem =
  | TableProblem
  | { readonly row: number | null; readonly column: null; readonly met: null; readonly fault: LayoutProblem };

const COLUMNS = [
  { name: 'plot', required: true },
  { name: 'treatment', required: true },
  { name: 'block', required: false },
  { name: 'row', required: false },
  { name: 'column', required: false },
  { name: 'treatment_name', required: false },
] as const;

export interface PlotTableOptions {
  /** What the layout is held to. @default randomised complete blocks where the table has blocks, else completely randomised */
  readonly design?: LayoutDesign;
  /** Numbers of adjacent control treatments, whose plots may lie anywhere. @default none */
  readonly adjacent?: readonly number[];
}

/**
 * Reads plots from CSV: `plot,block,treatment,row,column,treatment_name`, of which plot and treatment are needed.
 *
 * Without row and column each block (or the whole trial) is laid out as a row of the map, in the order of the table.
 *
 * @returns the whole table, or every problem with its row and cell: never part of it
 */
export function readPlotTable(
  text: string,
  options: PlotTableOptions = {},
): Checked<PlotTable, PlotTableProblem> {
  const opened = openTable(text, COLUMNS, MOST_PLOTS);
  if (!opened.ok) return opened;
  const table = opened.value;
  const problems: PlotTableProblem[] = [];
  const tableProblems: TableProblem[] = [];
  const placed = table.has('row') && table.has('column');
  const inBlock = new Map<number | null, number>();
  const blockRows: (number | null)[] = [];
  const names = new Map<number, { name: string; row: number }>();
  const plots: Plot[] = [];
  const rowOf: number[] = [];

  for (const row of table.rows) {
    const cells = cellReader(row, tableProblems);
    const before = tableProblems.length;
    const block = cells.whole('block');
    if (!blockRows.includes(block)) blockRows.push(block);
    const position = (inBlock.get(block) ?? 0) + 1;
    inBlock.set(block, position);
    const record = {
      plot: cells.text('plot') ?? undefined,
      block,
      treatment: cells.whole('treatment') ?? undefined,
      row: placed ? (cells.whole('row') ?? undefined) : blockRows.indexOf(block) + 1,
      column: placed ? (cells.whole('column') ?? undefined) : position,
    };
    if (tableProblems.length > before) continue;
    const checked = checkRecord(plotSchema, record);
    if (!checked.ok) {
      for (const { field, value: _, ...fault } of checked.problems) cells.problem(field, fault);
      continue;
    }
    const { treatment } = checked.value;
    const name = cells.text('treatment_name');
    const first = names.get(treatment);
    if (name !== null && first && first.name !== name) {
      cells.problem('treatment_name', {
        code: 'differs-from-row',
        firstRow: first.row,
        before: first.name,
      });
    }
    if (name !== null && !first) names.set(treatment, { name, row: row.row });
    plots.push(checked.value);
    rowOf.push(row.row);
  }
  problems.push(...tableProblems);

  const numbers = [...new Set(plots.map(({ treatment }) => treatment))].sort((a, b) => a - b);
  const adjacent = options.adjacent ?? [];
  const design =
    options.design ?? (table.has('block') ? 'randomized-complete-block' : 'completely-randomized');
  // What does not fit together is only asked of a table whose cells can all be read.
  if (problems.length === 0) {
    const randomised = numbers.filter((number) => !adjacent.includes(number));
    for (const fault of layoutProblems(plots, randomised, design, adjacent)) {
      const row = 'index' in fault ? rowOf[fault.index]! : null;
      problems.push({ row, column: null, met: null, fault });
    }
  }
  if (problems.length > 0) return { ok: false, problems };
  return {
    ok: true,
    value: {
      plots,
      treatments: numbers.map((number) => ({ number, name: names.get(number)?.name ?? null })),
      leftAside: table.leftAside,
    },
  };
}

/** Plots as CSV, in the order given; `readPlotTable` reads the same plots again. */
export function writePlotTable(
  plots: readonly Plot[],
  treatments: readonly { readonly number: number; readonly name: string | null }[],
): string {
  const names = new Map(
    [...groupBy(treatments, ({ number }) => number)].map(([number, [one]]) => [number, one!.name]),
  );
  return writeCsv(
    COLUMNS.map(({ name }) => name),
    plots.map(({ plot, treatment, block, row, column }) => [
      plot,
      String(treatment),
      block === null ? '' : String(block),
      String(row),
      String(column),
      names.get(treatment) ?? '',
    ]),
  );
}
