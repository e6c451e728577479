import { type PointerEvent, type RefObject, useEffect, useRef } from 'react';
import { type ScreenPoint, screenPoint } from '../../core/geometry/points.ts';
import { panBy, pinch, type View, zoomAt } from './view.ts';

/** Zoom of one wheel notch (100 px in every browser that reports pixels). */
const ZOOM_PER_NOTCH = 1.25;
const PX_PER_NOTCH = 100;
/** Pixels of one line, for wheels that report lines. */
const LINE_PX = 33;

/** Reads a pointer's place on the surface. */
function placeOn(element: HTMLElement, event: { clientX: number; clientY: number }): ScreenPoint {
  const { left, top } = element.getBoundingClientRect();
  return screenPoint(event.clientX - left, event.clientY - top);
}

/** Pens report how hard they are pressed; others report a constant. */
const pressureOf = ({ pointerType, pressure }: { pointerType: string; pressure: number }): number | null =>
  pointerType === 'pen' ? pressure : null;

/** What one pointer does instead of moving the photo. A second finger cancels it and moves the photo. */
export interface PaintGestures {
  /** @param pressure of a pen, 0..1; null for what has none */
  readonly start: (at: ScreenPoint, pressure: number | null) => void;
  /** All places since the last call, in order, with the pressure at each. */
  readonly move: (places: readonly ScreenPoint[], pressures: readonly (number | null)[]) => void;
  readonly end: () => void;
  readonly cancel: () => void;
}

interface ViewGestures {
  /** Changes the view by a function of the last one; the caller settles it. */
  readonly change: (step: (view: View) => View) => void;
  /** A pointer over the surface without a gesture going on; null when it leaves. */
  readonly onPoint: (at: ScreenPoint | null) => void;
  /** Null: one pointer moves the photo. */
  readonly paint?: PaintGestures | null;
}

/** Moves and zooms a view by drag, wheel and two fingers. Spread the answer on the surface. */
export function useViewGestures(
  surface: RefObject<HTMLElement | null>,
  { change, onPoint, paint = null }: ViewGestures,
) {
  const held = useRef(new Map<number, ScreenPoint>());
  /** The pointer that paints. */
  const painting = useRef<number | null>(null);

  useEffect(() => {
    const element = surface.current!;
    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      const px = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? event.deltaY * LINE_PX : event.deltaY;
      const anchor = placeOn(element, event);
      change((view) => zoomAt(view, anchor, ZOOM_PER_NOTCH ** (-px / PX_PER_NOTCH)));
    };
    // React listens passively, which cannot keep the page from scrolling
    element.addEventListener('wheel', onWheel, { passive: false });
    return () => element.removeEventListener('wheel', onWheel);
  }, [surface, change]);

  const release = (event: PointerEvent<HTMLElement>) => {
    held.current.delete(event.pointerId);
    if (painting.current !== event.pointerId) return;
    painting.current = null;
    if (event.type === 'pointercancel') paint?.cancel();
    else paint?.end();
  };
  return {
    onPointerDown(event: PointerEvent<HTMLElement>) {
      if (event.button !== 0) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      held.current.set(event.pointerId, placeOn(event.currentTarget, event));
      if (painting.current !== null) {
        painting.current = null;
        paint?.cancel();
      } else if (paint && held.current.size === 1) {
        painting.current = event.pointerId;
        paint.start(placeOn(event.currentTarget, event), pressureOf(event));
      }
      onPoint(placeOn(event.currentTarget, event));
    },
    onPointerMove(event: PointerEvent<HTMLElement>) {
      const place = placeOn(event.currentTarget, event);
      const before = held.current.get(event.pointerId);
      if (!before) {
        onPoint(place);
        return;
      }
      if (painting.current === event.pointerId) {
        onPoint(place);
        held.current.set(event.pointerId, place);
        const native = event.nativeEvent;
        const all = native.getCoalescedEvents?.() ?? [];
        const moves = all.length > 0 ? all : [native];
        paint?.move(
          moves.map((one) => placeOn(event.currentTarget, one)),
          moves.map(pressureOf),
        );
        return;
      }
      const others = [...held.current].filter(([id]) => id !== event.pointerId).map(([, at]) => at);
      held.current.set(event.pointerId, place);
      const [other] = others;
      if (other) change((view) => pinch(view, [other, before], [other, place]));
      else change((view) => panBy(view, place[0] - before[0], place[1] - before[1]));
    },
    onPointerUp: release,
    onPointerCancel: release,
    onPointerLeave: () => onPoint(null),
  };
}
