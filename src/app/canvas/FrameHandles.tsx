import type { Quadrilateral } from '../../core/geometry/points.ts';
import { app } from '../../core/text/app.ts';
import styles from './FrameHandles.module.css';
import { usePointGrips } from './usePointGrips.ts';
import { photoToScreen, type Size, type View } from './view.ts';

interface FrameHandlesProps {
  readonly corners: Quadrilateral<'photo'>;
  readonly view: View;
  readonly photo: Size;
  /** Dashed: these corners cannot be measured, or are only on offer. */
  readonly dashed: boolean;
  /** Corners can be taken hold of; otherwise only the outline is shown. */
  readonly editable: boolean;
  /** While a corner moves. */
  readonly onMove: (corners: Quadrilateral<'photo'>, corner: number) => void;
  /** When the person lets go of it. */
  readonly onDone: (corners: Quadrilateral<'photo'>) => void;
}

/** The outline of the measured area and a handle on each corner, for mouse, finger and keyboard. */
export function FrameHandles({ corners, view, photo, dashed, editable, onMove, onDone }: FrameHandlesProps) {
  const grip = usePointGrips({ points: corners, view, photo, onMove, onDone });
  const onScreen = corners.map((corner) => photoToScreen(view, corner));
  const outline = onScreen.map(([x, y]) => `${x},${y}`).join(' ');
  return (
    <div className={dashed ? `${styles.frame} ${styles.dashed}` : styles.frame}>
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
            {...grip(corner)}
          />
        ))}
    </div>
  );
}
