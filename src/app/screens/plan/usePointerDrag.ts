import { type PointerEvent as ReactPointerEvent, type RefObject, useEffect, useRef, useState } from 'react';

interface Drag {
  readonly from: string;
  /** What it is held over; null over nothing that takes it. */
  readonly over: string | null;
}

/** A mouse has to move so far before a press is a drag. */
const MOVED_PX = 6;
/** A finger has to rest so long: before, it scrolls. */
const HELD_MS = 350;

/**
 * Dragging one element onto another inside a container, with mouse, pen or finger. Elements that can be dragged or dropped
 * on carry `data-drag-key`.
 *
 * @param canDrag whether an element may be taken up
 */
export function usePointerDrag(
  container: RefObject<HTMLElement | null>,
  onDrop: (from: string, to: string) => void,
  canDrag: (key: string) => boolean = () => true,
) {
  const [drag, setDrag] = useState<Drag | null>(null);
  const dropped = useRef(onDrop);
  dropped.current = onDrop;
  const end = useRef<(() => void) | null>(null);
  useEffect(() => () => end.current?.(), []);

  const onPointerDown = (event: ReactPointerEvent) => {
    const from = keyOf(event.target);
    if (from === null || event.button !== 0 || !canDrag(from) || end.current) return;
    const { pointerId, pointerType, clientX, clientY } = event;
    const finger = pointerType === 'touch';
    let held: Drag | null = null;
    const hold = (key: string | null) => {
      const over = key === from ? null : key;
      if (held?.over === over) return;
      held = { from, over };
      setDrag(held);
    };
    const timer = finger ? setTimeout(() => hold(null), HELD_MS) : undefined;
    const move = (moved: PointerEvent) => {
      if (moved.pointerId !== pointerId) return;
      const far = Math.hypot(moved.clientX - clientX, moved.clientY - clientY) > MOVED_PX;
      if (!held && (finger || !far)) {
        if (far) stop();
        return;
      }
      hold(keyAt(container.current, moved));
    };
    const up = (ended: PointerEvent) => {
      if (ended.pointerId !== pointerId) return;
      const over = held && keyAt(container.current, ended);
      stop();
      if (over !== null && over !== from) dropped.current(from, over);
    };
    const keepStill = (touch: Event) => {
      if (held) touch.preventDefault();
    };
    const stop = () => {
      clearTimeout(timer);
      removeEventListener('pointermove', move);
      removeEventListener('pointerup', up);
      removeEventListener('pointercancel', stop);
      removeEventListener('contextmenu', keepStill);
      removeEventListener('touchmove', keepStill);
      end.current = null;
      setDrag(null);
    };
    addEventListener('pointermove', move);
    addEventListener('pointerup', up);
    addEventListener('pointercancel', stop);
    // a finger that holds a plot neither scrolls nor calls a menu
    addEventListener('contextmenu', keepStill);
    addEventListener('touchmove', keepStill, { passive: false });
    end.current = stop;
  };
  return { drag, onPointerDown };
}

function keyOf(target: EventTarget | null): string | null {
  const element = target instanceof Element ? target.closest<HTMLElement>('[data-drag-key]') : null;
  return element?.dataset.dragKey ?? null;
}

function keyAt(container: HTMLElement | null, { clientX, clientY }: PointerEvent): string | null {
  const element = document.elementFromPoint(clientX, clientY);
  return element && container?.contains(element) ? keyOf(element) : null;
}
