import type { KeyboardEvent } from 'react';
import { type PhotoPoint, screenPoint } from '../../../core/geometry/points.ts';
import type { Surface } from '../../canvas/useSurface.ts';
import { panBy, photoToScreen, screenToPhoto, type View } from '../../canvas/view.ts';
import type { ViewControl } from './useView.ts';

/** How far an arrow key moves the cursor, in CSS pixels; with Shift ten times as far. */
const KEY_STEP_PX = 4;
const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** The photo's point in the middle of the stage, where a cursor begins. */
export const middleOf = (view: View, { width, height }: Surface): PhotoPoint =>
  screenToPhoto(view, screenPoint(width / 2, height / 2));

/**
 * Moves a cursor over the photo by an arrow key; the photo follows where the cursor would leave the stage.
 *
 * @param step moves the cursor by so many photo pixels and says where it is then
 * @returns the cursor's place; null where the key is no arrow
 */
export function moveByArrow(
  event: KeyboardEvent,
  view: View,
  surface: Surface,
  changeView: ViewControl['change'],
  step: (right: number, down: number) => PhotoPoint,
): PhotoPoint | null {
  const arrow = ARROWS[event.key];
  if (!arrow) return null;
  const px = (KEY_STEP_PX * (event.shiftKey ? 10 : 1)) / view.scale;
  const next = step(arrow[0] * px, arrow[1] * px);
  const [x, y] = photoToScreen(view, next);
  const back = (place: number, room: number) => Math.min(0, room - place) + Math.max(0, -place);
  changeView((last) => panBy(last, back(x, surface.width), back(y, surface.height)));
  return next;
}
