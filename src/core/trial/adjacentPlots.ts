import { groupBy } from './groupBy.ts';
import type { Plot } from './plot.ts';

/**
 * Plots for an untreated control that lies beside the treated ones: one for each block at the end of its first row, or
 * without blocks one at the end of each row. They take no part in the randomisation.
 *
 * Named on from the plots there: 105 beside 101 to 104, or the next number; a name that is taken is passed over.
 */
export function adjacentPlots(plots: readonly Plot[], treatment: number): Plot[] {
  const added: Plot[] = [];
  for (const line of groupBy(plots, ({ block, row }) => block ?? `row ${row}`).values()) {
    const all = [...plots, ...added];
    const { block } = line[0]!;
    const row = Math.min(...line.map((plot) => plot.row));
    const inRow = all.filter((plot) => plot.row === row);
    const plot = nextName(block === null ? all : line, all);
    added.push({ plot, block, treatment, row, column: freeColumn(line, inRow) });
  }
  return added;
}

/** Right of the line's own plots where that place is free, else right of all plots of the row. */
function freeColumn(line: readonly Plot[], inRow: readonly Plot[]): number {
  const last = (plots: readonly Plot[]) => Math.max(...plots.map(({ column }) => column));
  const beside = last(line) + 1;
  return inRow.some(({ column }) => column === beside) ? last(inRow) + 1 : beside;
}

/** The number after the largest among some plots, or the next that no plot has. */
function nextName(among: readonly Plot[], all: readonly Plot[]): string {
  const numbers = among.map(({ plot }) => plot).filter((name) => /^\d+$/.test(name));
  let next = Math.max(0, ...numbers.map(Number)) + 1;
  while (all.some(({ plot }) => plot === String(next))) next += 1;
  return String(next);
}
