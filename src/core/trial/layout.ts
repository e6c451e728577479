import { z } from 'zod';
import { groupBy } from './groupBy.ts';
import { randomLatinSquare } from './latinSquare.ts';
import type { Plot } from './plot.ts';
import { LARGEST_SEED, type Random, shuffled } from './repeatableRandom.ts';

export const LAYOUT_DESIGNS = [
  'randomized-complete-block',
  'completely-randomized',
  'latin-square',
  'own',
] as const;
export type LayoutDesign = (typeof LAYOUT_DESIGNS)[number];

/** How the plots of a trial came to their treatments, kept so that the drawing can be made again. */
export const layoutSchema = z.strictObject({
  design: z.enum(LAYOUT_DESIGNS),
  /** Replicates of each treatment: blocks, or rows of the square. */
  replicates: z.int().min(1).max(100),
  /** Rows of plots that a block takes up; 1 puts each block in a row of its own. */
  rowsPerBlock: z.int().min(1).max(100),
  /** Blocks that lie side by side before the next ones begin behind them. */
  blocksAcross: z.int().min(1).max(100),
  /** `by-block`: 101, 102, .. 201; `in-order`: 1, 2, 3, .. */
  numbering: z.enum(['by-block', 'in-order']),
  /** The seed it was drawn with; null for a layout of one's own. */
  seed: z.int().min(0).max(LARGEST_SEED).nullable(),
  /** Plots swapped by hand after the drawing, in order. */
  swaps: z.array(z.tuple([z.string(), z.string()])).max(2000),
});
export type Layout = z.infer<typeof layoutSchema>;

/**
 * Draws a layout: every arrangement that the design allows is equally likely.
 *
 * - `randomized-complete-block`: each treatment once in each block, in an order of its own.
 * - `completely-randomized`: all plots in one random order; `replicates` plots of each treatment; no blocks.
 * - `latin-square`: as many rows and columns as treatments, each treatment once in every row and column. Rows stand as
 *   blocks; columns are the second blocking.
 *
 * Rows count away from where the map is seen, columns from left to right. The same seed gives the same plots.
 *
 * @param treatments numbers of the treatments to randomise, without an adjacent control
 * @throws RangeError for the design `own`, fewer than two treatments, or a square whose replicates are not its treatments
 */
export function drawLayout(treatments: readonly number[], layout: Layout, random: Random): Plot[] {
  if (treatments.length < 2) throw new RangeError(`a layout needs 2 treatments, got ${treatments.length}`);
  switch (layout.design) {
    case 'randomized-complete-block': {
      const blocks = Array.from({ length: layout.replicates }, () => shuffled(treatments, random));
      return numbered(placeBlocks(blocks, layout), layout);
    }
    case 'completely-randomized': {
      const all = Array.from({ length: layout.replicates }, () => treatments).flat();
      const columns = treatments.length * layout.blocksAcross;
      const places = shuffled(all, random).map((treatment, index) => ({
        block: null,
        treatment,
        row: Math.floor(index / columns) + 1,
        column: (index % columns) + 1,
      }));
      return numbered(places, layout);
    }
    case 'latin-square': {
      if (layout.replicates !== treatments.length) {
        throw new RangeError(
          `a Latin square of ${treatments.length} treatments has as many replicates, got ${layout.replicates}`,
        );
      }
      const rows = randomLatinSquare(treatments.length, random);
      const places = rows.flatMap((row, r) =>
        row.map((symbol, c) => ({
          block: r + 1,
          treatment: treatments[symbol]!,
          row: r + 1,
          column: c + 1,
        })),
      );
      return numbered(places, layout);
    }
    case 'own':
      throw new RangeError('a layout of one’s own is entered, not drawn');
  }
}

type Place = Omit<Plot, 'plot'>;

function placeBlocks(blocks: readonly (readonly number[])[], layout: Layout): Place[] {
  return blocks.flatMap((treatments, b) => {
    const columnsPerBlock = Math.ceil(treatments.length / layout.rowsPerBlock);
    const firstRow = Math.floor(b / layout.blocksAcross) * layout.rowsPerBlock + 1;
    const firstColumn = (b % layout.blocksAcross) * columnsPerBlock + 1;
    return treatments.map((treatment, position) => ({
      block: b + 1,
      treatment,
      row: firstRow + Math.floor(position / columnsPerBlock),
      column: firstColumn + (position % columnsPerBlock),
    }));
  });
}

/** Names the plots: 101, 102, .. by block (1001 where a block has 100 plots or more), or 1, 2, .. through the trial. */
function numbered(places: readonly Place[], layout: Layout): Plot[] {
  if (layout.numbering === 'in-order' || places.some(({ block }) => block === null)) {
    return places.map((place, index) => ({ plot: String(index + 1), ...place }));
  }
  const inBlock = new Map<number, number>();
  const blockSizes = [...groupBy(places, ({ block }) => block).values()].map((inBlock) => inBlock.length);
  const hundred = Math.max(...blockSizes) < 100 ? 100 : 1000;
  return places.map((place) => {
    const position = (inBlock.get(place.block!) ?? 0) + 1;
    inBlock.set(place.block!, position);
    return { plot: String(place.block! * hundred + position), ...place };
  });
}

/**
 * Swaps the treatments of two plots; names, blocks and places stay with the ground.
 *
 * @throws RangeError if one of them is no plot of the layout
 */
export function swapTreatments(plots: readonly Plot[], first: string, second: string): Plot[] {
  const treatmentOf = (name: string) => {
    const found = plots.find(({ plot }) => plot === name);
    if (!found) throw new RangeError(`no plot "${name}" in this layout`);
    return found.treatment;
  };
  const [a, b] = [treatmentOf(first), treatmentOf(second)];
  return plots.map((plot) => {
    if (plot.plot === first) return { ...plot, treatment: b };
    return plot.plot === second ? { ...plot, treatment: a } : plot;
  });
}
