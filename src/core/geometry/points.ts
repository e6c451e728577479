/**
 * Points that know which space they live in, so that a photo pixel is never taken for a screen pixel.
 *
 * - photo: pixels of the upright photo, origin at its top left corner; the pixel in column 3 covers x from 3 to 4
 * - plot: millimetres inside the frame, origin at its top left inner corner
 * - screen: CSS pixels of the drawing surface
 */
declare const space: unique symbol;

export type Point<Space extends string> = readonly [x: number, y: number] & { readonly [space]: Space };
export type PhotoPoint = Point<'photo'>;
export type PlotPoint = Point<'plot'>;
export type ScreenPoint = Point<'screen'>;

export const photoPoint = (x: number, y: number): PhotoPoint => [x, y] as unknown as PhotoPoint;
export const plotPoint = (x: number, y: number): PlotPoint => [x, y] as unknown as PlotPoint;
export const screenPoint = (x: number, y: number): ScreenPoint => [x, y] as unknown as ScreenPoint;

/** Four corners, always top-left, top-right, bottom-right, bottom-left. */
export type Quadrilateral<Space extends string> = readonly [
  Point<Space>,
  Point<Space>,
  Point<Space>,
  Point<Space>,
];
