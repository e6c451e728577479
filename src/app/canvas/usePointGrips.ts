import { type KeyboardEvent, type PointerEvent, useRef } from 'react';
import { type PhotoPoint, photoPoint, screenPoint } from '../../core/geometry/points.ts';
import { photoToScreen, type Size, screenToPhoto, type View } from './view.ts';

interface PointGrips<Points extends readonly PhotoPoint[]> {
  readonly points: Points;
  readonly view: View;
  readonly photo: Size;
  /** While a point moves. */
  readonly onMove: (points: Points, index: number) => void;
  /** When the person lets go of it. */
  readonly onDone: (points: Points) => void;
  /** Delete was pressed on a point. @default nothing happens */
  readonly onRemove?: (index: number) => void;
}

const KEYS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** Index that takes hold of all points at once. */
export const ALL_POINTS = -1;

/**
 * Handlers for buttons that move points on the photo: drag, arrow keys (Shift: ten pixels), Delete.
 *
 * @returns the handlers of the button for a point, or for `ALL_POINTS`
 */
export function usePointGrips<Points extends readonly PhotoPoint[]>(grips: PointGrips<Points>) {
  const { points, view, photo, onMove, onDone, onRemove } = grips;
  const held = useRef<{ readonly dx: number; readonly dy: number } | null>(null);
  const latest = useRef(points);
  latest.current = points;

  const anchorOf = (index: number) => points[Math.max(0, index)]!;
  const moveTo = (index: number, [x, y]: PhotoPoint) => {
    const [ax, ay] = anchorOf(index);
    const moved = index === ALL_POINTS ? points : [anchorOf(index)];
    // as far as the photo reaches, and all of them alike
    const shift = (by: number, at: readonly number[], limit: number) =>
      Math.min(limit - Math.max(...at), Math.max(-Math.min(...at), by));
    const dx = shift(
      x - ax,
      moved.map((point) => point[0]),
      photo.width,
    );
    const dy = shift(
      y - ay,
      moved.map((point) => point[1]),
      photo.height,
    );
    const tenth = (value: number) => Math.round(value * 10) / 10;
    const next = points.map((point, at) =>
      index === ALL_POINTS || at === index ? photoPoint(tenth(point[0] + dx), tenth(point[1] + dy)) : point,
    ) as unknown as Points;
    latest.current = next;
    onMove(next, index);
    return next;
  };
  const release = () => {
    if (!held.current) return;
    held.current = null;
    onDone(latest.current);
  };
  return (index: number) => ({
    onPointerDown(event: PointerEvent<HTMLButtonElement>) {
      if (event.button !== 0) return;
      event.stopPropagation();
      event.currentTarget.focus();
      event.currentTarget.setPointerCapture(event.pointerId);
      const [x, y] = photoToScreen(view, anchorOf(index));
      held.current = { dx: event.clientX - x, dy: event.clientY - y };
    },
    onPointerMove(event: PointerEvent<HTMLButtonElement>) {
      event.stopPropagation();
      const { current } = held;
      if (!current) return;
      moveTo(index, screenToPhoto(view, screenPoint(event.clientX - current.dx, event.clientY - current.dy)));
    },
    onPointerUp(event: PointerEvent<HTMLButtonElement>) {
      event.stopPropagation();
      release();
    },
    onPointerCancel: release,
    onKeyDown(event: KeyboardEvent) {
      if (event.ctrlKey || event.altKey || event.metaKey) return;
      const step = KEYS[event.key];
      if (!step && !(event.key === 'Delete' && onRemove)) return;
      event.preventDefault();
      event.stopPropagation();
      if (!step) return onRemove?.(index);
      const [x, y] = anchorOf(index);
      const px = event.shiftKey ? 10 : 1;
      onDone(moveTo(index, photoPoint(x + step[0] * px, y + step[1] * px)));
    },
  });
}
