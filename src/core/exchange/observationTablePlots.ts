import { plotKey } from '../trial/plot.ts';
import type { ObservationProblem } from './observationProblem.ts';

/** Where a plot lies and what it got. */
export interface TrialPlot {
  readonly treatment: string;
  readonly block: string | null;
  readonly row: string | null;
  readonly column: string | null;
}

/** A plot as the table (and the trial) describe it. */
export interface KnownPlot {
  /** As it was first written. */
  readonly name: string;
  readonly place: { readonly [column in PlaceColumn]: string | null };
  readonly factors: ReadonlyMap<string, string>;
}

export const PLACE_COLUMNS = ['treatment', 'block', 'row', 'column'] as const;
export type PlaceColumn = (typeof PLACE_COLUMNS)[number];

interface PlotEntry {
  readonly name: string;
  /** What is known by column, with the row it was read in; null: the trial. */
  readonly cells: Map<string, { readonly text: string; readonly row: number | null }>;
}

/**
 * What a table says of its plots: each cell is learned once and held against later rows.
 *
 * @param trialPlots plots there are, by `plotKey`; null: any
 * @param factors columns of treatment factors
 * @param report called for every contradiction
 */
export function plotRegister(
  trialPlots: ReadonlyMap<string, TrialPlot> | null,
  factors: readonly string[],
  report: (problem: ObservationProblem) => void,
) {
  const entries = new Map<string, PlotEntry>();

  const entryOf = (plot: string, row: number): PlotEntry | null => {
    const known = entries.get(plotKey(plot));
    if (known) return known;
    const trial = trialPlots?.get(plotKey(plot));
    if (trialPlots && !trial) {
      report({ code: 'unknown-plot', row, met: plot });
      return null;
    }
    const entry: PlotEntry = { name: plot, cells: new Map() };
    for (const column of PLACE_COLUMNS) {
      const text = trial?.[column] ?? null;
      if (text !== null) entry.cells.set(column, { text, row: null });
    }
    entries.set(plotKey(plot), entry);
    return entry;
  };

  /** Learns what a row says of its plot. */
  const read = (plot: string, row: number, cell: (column: string) => string): void => {
    const entry = entryOf(plot, row);
    if (!entry) return;
    for (const column of [...PLACE_COLUMNS, ...factors]) {
      const met = cell(column);
      const before = entry.cells.get(column);
      if (met === '') continue;
      if (!before) entry.cells.set(column, { text: met, row });
      else if (before.text !== met) {
        report({ code: 'plot-differs', row, column, plot, met, before: before.text, beforeRow: before.row });
      }
    }
    for (const column of ['treatment', ...factors]) {
      if (!entry.cells.has(column)) report({ code: 'empty-cell', row, column });
    }
  };

  const plot = (key: string): KnownPlot => {
    const { name, cells } = entries.get(key)!;
    const text = (column: string): string | null => cells.get(column)?.text ?? null;
    return {
      name,
      place: { treatment: text('treatment'), block: text('block'), row: text('row'), column: text('column') },
      factors: new Map(factors.map((factor) => [factor, text(factor) ?? ''])),
    };
  };

  /** Blocks for some plots only would quietly change the design. */
  const checkBlocks = (): void => {
    const without = [...entries.values()].filter(({ cells }) => !cells.has('block'));
    if (without.length === entries.size) return;
    for (const { name } of without) report({ code: 'block-missing', plot: name });
  };

  return { read, plot, checkBlocks };
}
