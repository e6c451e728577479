import { type PhotoPoint, photoPoint } from '../../core/geometry/points.ts';
import { area } from '../../core/text/area.ts';
import styles from './FrameHandles.module.css';
import { ALL_POINTS, usePointGrips } from './usePointGrips.ts';
import { photoToScreen, type Size, type View } from './view.ts';

/** A polygon on the photo: ground left out, ground measured, or a grey card. */
export interface ShownOutline {
  readonly id: string;
  readonly kind: 'ignored' | 'measured' | 'card';
  readonly name: string;
  readonly points: readonly PhotoPoint[];
}

interface OutlineLayerProps {
  readonly outlines: readonly ShownOutline[];
  readonly view: View;
  readonly photo: Size;
  /** The outline whose corners can be taken hold of. */
  readonly chosenId: string | null;
  readonly onMove: (id: string, points: readonly PhotoPoint[]) => void;
  readonly onDone: (id: string, points: readonly PhotoPoint[]) => void;
  /** Corners pressed so far of an outline that is being drawn. */
  readonly draft: readonly PhotoPoint[];
}

/** Outlines on the photo beside the frame, one of them with handles, and one that is being drawn. */
export function OutlineLayer({ outlines, view, photo, chosenId, onMove, onDone, draft }: OutlineLayerProps) {
  const onScreen = (points: readonly PhotoPoint[]) =>
    points.map((point) => photoToScreen(view, point).join(',')).join(' ');
  const chosen = outlines.find(({ id }) => id === chosenId);
  const start = draft[0] && photoToScreen(view, draft[0]);
  return (
    <div className={styles.frame}>
      <svg className={styles.outline} aria-hidden="true">
        {outlines.map(({ id, kind, points }) => (
          <g key={id}>
            {kind === 'ignored' && <polygon points={onScreen(points)} className={styles.ignored} />}
            <polygon points={onScreen(points)} className={styles.halo} />
            <polygon
              points={onScreen(points)}
              className={kind === 'measured' ? styles.line : `${styles.line} ${styles.dashes}`}
            />
          </g>
        ))}
        {draft.length > 0 && (
          <>
            <polygon points={onScreen(draft)} className={styles.draft} />
            <polyline points={onScreen(draft)} fill="none" className={styles.halo} />
            <polyline points={onScreen(draft)} fill="none" className={styles.line} />
          </>
        )}
        {start && <circle cx={start[0]} cy={start[1]} r="7" className={styles.first} />}
      </svg>
      {chosen && (
        <OutlineHandles
          key={chosen.id}
          outline={chosen}
          view={view}
          photo={photo}
          onMove={(points) => onMove(chosen.id, points)}
          onDone={(points) => onDone(chosen.id, points)}
        />
      )}
    </div>
  );
}

interface OutlineHandlesProps {
  readonly outline: ShownOutline;
  readonly view: View;
  readonly photo: Size;
  readonly onMove: (points: readonly PhotoPoint[]) => void;
  readonly onDone: (points: readonly PhotoPoint[]) => void;
}

/** A handle on each corner and one that moves the whole; Delete on a corner takes it away while three are left. */
function OutlineHandles({ outline: { name, points }, view, photo, onMove, onDone }: OutlineHandlesProps) {
  const grip = usePointGrips({
    points,
    view,
    photo,
    onMove,
    onDone,
    onRemove: (index) => {
      if (index !== ALL_POINTS && points.length > 3) onDone(points.filter((_, at) => at !== index));
    },
  });
  const middle = photoPoint(
    points.reduce((sum, [x]) => sum + x, 0) / points.length,
    points.reduce((sum, [, y]) => sum + y, 0) / points.length,
  );
  const [middleX, middleY] = photoToScreen(view, middle);
  return (
    <>
      {points.map((point, index) => {
        const [left, top] = photoToScreen(view, point);
        return (
          <button
            // biome-ignore lint/suspicious/noArrayIndexKey: a corner is its place in the outline
            key={index}
            type="button"
            className={styles.handle}
            style={{ left, top }}
            aria-label={area.corner(name, index, point[0], point[1])}
            {...grip(index)}
          />
        );
      })}
      <button
        type="button"
        className={`${styles.handle} ${styles.whole}`}
        style={{ left: middleX, top: middleY }}
        aria-label={area.whole(name)}
        {...grip(ALL_POINTS)}
      />
    </>
  );
}
