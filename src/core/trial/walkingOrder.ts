import { z } from 'zod';
import { groupBy } from './groupBy.ts';

/** How the person with the phone walks the map. */
export const walkSchema = z.strictObject({
  /** Along rows or along columns. */
  along: z.enum(['rows', 'columns']),
  /** `there-and-back`: every second line is walked the other way; `same-way`: each line from its start. */
  turn: z.enum(['there-and-back', 'same-way']),
  startRow: z.enum(['first', 'last']),
  startColumn: z.enum(['first', 'last']),
});
export type Walk = z.infer<typeof walkSchema>;

export const THERE_AND_BACK_BY_ROW: Walk = {
  along: 'rows',
  turn: 'there-and-back',
  startRow: 'first',
  startColumn: 'first',
};

/** The plots in the order they are walked past. Empty places of the map are walked over. */
export function walkingOrder<P extends { readonly row: number; readonly column: number }>(
  plots: readonly P[],
  walk: Walk = THERE_AND_BACK_BY_ROW,
): P[] {
  const byRows = walk.along === 'rows';
  const line = (plot: P) => (byRows ? plot.row : plot.column);
  const step = (plot: P) => (byRows ? plot.column : plot.row);
  const lineSign = (byRows ? walk.startRow : walk.startColumn) === 'first' ? 1 : -1;
  const stepSign = (byRows ? walk.startColumn : walk.startRow) === 'first' ? 1 : -1;
  const lines = [...groupBy(plots, line)].sort(([a], [b]) => lineSign * (a - b));
  return lines.flatMap(([, inLine], index) => {
    const sign = walk.turn === 'there-and-back' && index % 2 === 1 ? -stepSign : stepSign;
    return inLine.sort((a, b) => sign * (step(a) - step(b)));
  });
}
