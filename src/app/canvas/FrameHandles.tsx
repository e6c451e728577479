import { type KeyboardEvent, type PointerEvent, useRef } from 'react';
import { type PhotoPoint, photoPoint, type Quadrilateral, screenPoint } from '../../core/geometry/points.ts';
import { app } from '../../core/text/app.ts';
import styles from './FrameHandles.module.css';
import { photoToScreen, type Size, screenToPhoto, type View } from './view.ts';

interface FrameHandlesProps {
  readonly corners: Quadrilateral<'photo'>;
  readonly view: View;
  readonly photo: Size;
  /** Whether these corners cannot be measured. */
  readonly wrong: boolean;
  /** Corners can be taken hold of; otherwise only the outline is shown. */
  readonly editable: boolean;
  /** While a corner moves. */
  readonly onMove: (corners: Quadrilateral<'photo'>, corner: number) => void;
  /** When the person lets go of it. */
  readonly onDone: (corners: Quadrilateral<'photo'>) => void;
}

const KEYS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** The outline of the measured area and a handle on each corner, for mouse, finger and keyboard. */
export function FrameHandles({ corners, view, photo, wrong, editable, onMove, onDone }: FrameHandlesProps) {
  const grip = useRef<{ corner: number; dx: number; dy: number } | null>(null);
  const latest = useRef(corners);
  latest.current = corners;

  const moveTo = (corner: number, [x, y]: PhotoPoint) => {
    const within = (at: number, limit: number) => Math.round(Math.min(limit, Math.max(0, at)) * 10) / 10;
    const next = withCorner(corners, corner, photoPoint(within(x, photo.width), within(y, photo.height)));
    latest.current = next;
    onMove(next, corner);
    return next;
  };

  const dragTo = (event: PointerEvent<HTMLButtonElement>) => {
    const held = grip.current;
    if (!held) return;
    moveTo(held.corner, screenToPhoto(view, screenPoint(event.clientX - held.dx, event.clientY - held.dy)));
  };

  const handlers = (corner: number) => ({
    onPointerDown(event: PointerEvent<HTMLButtonElement>) {
      if (event.button !== 0) return;
      event.stopPropagation();
      event.currentTarget.focus();
      event.currentTarget.setPointerCapture(event.pointerId);
      const [x, y] = photoToScreen(view, corners[corner]!);
      grip.current = { corner, dx: event.clientX - x, dy: event.clientY - y };
    },
    onPointerMove(event: PointerEvent<HTMLButtonElement>) {
      event.stopPropagation();
      dragTo(event);
    },
    onPointerUp(event: PointerEvent<HTMLButtonElement>) {
      event.stopPropagation();
      if (!grip.current) return;
      grip.current = null;
      onDone(latest.current);
    },
    onPointerCancel() {
      if (!grip.current) return;
      grip.current = null;
      onDone(latest.current);
    },
    onKeyDown(event: KeyboardEvent) {
      const step = KEYS[event.key];
      if (!step || event.ctrlKey || event.altKey || event.metaKey) return;
      event.preventDefault();
      event.stopPropagation();
      const [x, y] = corners[corner]!;
      const px = event.shiftKey ? 10 : 1;
      onDone(moveTo(corner, photoPoint(x + step[0] * px, y + step[1] * px)));
    },
  });

  const onScreen = corners.map((corner) => photoToScreen(view, corner));
  const outline = onScreen.map(([x, y]) => `${x},${y}`).join(' ');
  return (
    <div className={wrong ? `${styles.frame} ${styles.wrong}` : styles.frame}>
      <svg className={styles.outline} aria-hidden="true">
        <polygon points={outline} className={styles.halo} />
        <polygon points={outline} className={styles.line} />
      </svg>
      {editable &&
        onScreen.map(([x, y], corner) => (
          <button
            key={app.frame.corners[corner]}
            type="button"
            className={styles.handle}
            style={{ left: x, top: y }}
            aria-label={app.frame.handle(
              app.frame.corners[corner]!,
              corners[corner]![0],
              corners[corner]![1],
            )}
            {...handlers(corner)}
          />
        ))}
    </div>
  );
}

function withCorner(corners: Quadrilateral<'photo'>, corner: number, at: PhotoPoint): Quadrilateral<'photo'> {
  return corners.map((old, index) => (index === corner ? at : old)) as unknown as Quadrilateral<'photo'>;
}
