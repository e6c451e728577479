import { groupBy } from './groupBy.ts';
import type { LayoutDesign } from './layout.ts';
import { type Plot, plotKey } from './plot.ts';

/** What does not fit in a layout; each names the plots or the block to look at. */
export type LayoutProblem =
  | {
      readonly code: 'plot-twice';
      readonly plot: string;
      readonly index: number;
      readonly firstIndex: number;
    }
  | {
      readonly code: 'two-plots-in-one-place';
      readonly plots: readonly [string, string];
      readonly row: number;
      readonly column: number;
      readonly index: number;
    }
  | {
      readonly code: 'treatment-unknown';
      readonly plot: string;
      readonly treatment: number;
      readonly index: number;
    }
  | { readonly code: 'block-missing'; readonly plot: string; readonly index: number }
  | { readonly code: 'treatment-missing-in-block'; readonly treatment: number; readonly block: number }
  | {
      readonly code: 'treatment-twice-in-block';
      readonly treatment: number;
      readonly block: number;
      readonly plots: readonly string[];
    }
  | { readonly code: 'treatment-without-plot'; readonly treatment: number }
  | {
      readonly code: 'treatment-twice-in-column';
      readonly treatment: number;
      readonly column: number;
      readonly plots: readonly string[];
    }
  | {
      readonly code: 'not-a-square';
      readonly treatments: number;
      readonly rows: number;
      readonly columns: number;
    };

/**
 * Looks a layout over, as drawn, edited or read from a table. Cost is linear in the plots.
 *
 * @param treatments the treatments that the layout randomises; plots of `adjacent` ones may lie anywhere
 * @returns all problems; empty when the plots are what the design says
 */
export function layoutProblems(
  plots: readonly Plot[],
  treatments: readonly number[],
  design: LayoutDesign,
  adjacent: readonly number[] = [],
): LayoutProblem[] {
  const problems = namesAndPlaces(plots);
  const [randomised, beside] = [new Set(treatments), new Set(adjacent)];
  plots.forEach(({ plot, treatment }, index) => {
    if (!randomised.has(treatment) && !beside.has(treatment)) {
      problems.push({ code: 'treatment-unknown', plot, treatment, index });
    }
  });
  const inLayout = plots.filter((plot) => randomised.has(plot.treatment));
  for (const treatment of treatments) {
    if (!inLayout.some((plot) => plot.treatment === treatment)) {
      problems.push({ code: 'treatment-without-plot', treatment });
    }
  }
  if (design === 'randomized-complete-block') problems.push(...blockProblems(plots, inLayout, treatments));
  if (design === 'latin-square') problems.push(...squareProblems(inLayout, treatments));
  return problems;
}

function namesAndPlaces(plots: readonly Plot[]): LayoutProblem[] {
  const problems: LayoutProblem[] = [];
  const byName = new Map<string, number>();
  const byPlace = new Map<string, string>();
  plots.forEach(({ plot, row, column }, index) => {
    const firstIndex = byName.get(plotKey(plot));
    if (firstIndex === undefined) byName.set(plotKey(plot), index);
    else problems.push({ code: 'plot-twice', plot, index, firstIndex });
    const place = `${row},${column}`;
    const there = byPlace.get(place);
    if (there === undefined) byPlace.set(place, plot);
    else if (firstIndex === undefined) {
      problems.push({ code: 'two-plots-in-one-place', plots: [there, plot], row, column, index });
    }
  });
  return problems;
}

function blockProblems(
  plots: readonly Plot[],
  inLayout: readonly Plot[],
  treatments: readonly number[],
): LayoutProblem[] {
  const problems: LayoutProblem[] = [];
  plots.forEach(({ plot, block }, index) => {
    if (block === null) problems.push({ code: 'block-missing', plot, index });
  });
  for (const [block, inBlock] of groupBy(inLayout, (plot) => plot.block)) {
    if (block === null) continue;
    const byTreatment = groupBy(inBlock, (plot) => plot.treatment);
    for (const treatment of treatments) {
      const found = byTreatment.get(treatment) ?? [];
      if (found.length === 0) problems.push({ code: 'treatment-missing-in-block', treatment, block });
      if (found.length > 1) {
        const names = found.map(({ plot }) => plot);
        problems.push({ code: 'treatment-twice-in-block', treatment, block, plots: names });
      }
    }
  }
  return problems;
}

function squareProblems(inLayout: readonly Plot[], treatments: readonly number[]): LayoutProblem[] {
  const rows = groupBy(inLayout, (plot) => plot.row);
  const columns = groupBy(inLayout, (plot) => plot.column);
  const order = treatments.length;
  if (rows.size !== order || columns.size !== order || inLayout.length !== order ** 2) {
    return [{ code: 'not-a-square', treatments: order, rows: rows.size, columns: columns.size }];
  }
  const repeats = (line: readonly Plot[]) =>
    [...groupBy(line, (plot) => plot.treatment)].filter(([, found]) => found.length > 1);
  const problems: LayoutProblem[] = [];
  for (const [row, line] of rows) {
    for (const [treatment, found] of repeats(line)) {
      const names = found.map(({ plot }) => plot);
      problems.push({ code: 'treatment-twice-in-block', treatment, block: row, plots: names });
    }
  }
  for (const [column, line] of columns) {
    for (const [treatment, found] of repeats(line)) {
      const names = found.map(({ plot }) => plot);
      problems.push({ code: 'treatment-twice-in-column', treatment, column, plots: names });
    }
  }
  return problems;
}
