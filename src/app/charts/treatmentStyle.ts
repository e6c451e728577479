import { SERIES_COLOURS, seriesPaint } from './paint.ts';

export type MarkerShape = 'circle' | 'square' | 'triangle' | 'diamond' | 'triangle-down' | 'cross';

/** How a treatment looks in every chart: by colour, marker and dash, so that one of the three is enough. */
export interface TreatmentStyle {
  readonly colour: string;
  readonly shape: MarkerShape;
  readonly filled: boolean;
  /** `stroke-dasharray`; undefined is a solid line. */
  readonly dash: string | undefined;
}

const SHAPES: readonly MarkerShape[] = ['circle', 'square', 'triangle', 'diamond', 'triangle-down', 'cross'];
const DASHES = [undefined, '7 3', '2 3', '9 3 2 3', '14 4', '5 2 1.500 2 1.500 2'] as const;

/**
 * @param place of the treatment in the trial, from 0. Twelve places differ in full; from the 13th on they repeat and only labels tell
 * them apart
 */
export function treatmentStyle(place: number): TreatmentStyle {
  const round = Math.floor(place / SERIES_COLOURS.length);
  return {
    colour: seriesPaint(place),
    shape: SHAPES[place % SHAPES.length]!,
    filled: round % 2 === 0,
    dash: DASHES[(place + round) % DASHES.length],
  };
}
