import { useEffect, useRef } from 'react';
import type { AppliedLesson } from '../../../../core/cover/teachingDesk.ts';
import { screenPoint } from '../../../../core/geometry/points.ts';
import { teach } from '../../../../core/text/teach.ts';
import { doubtReasonText } from '../../../../core/text/teaching.ts';
import type { CoverClass } from '../../../../core/trial/coverClass.ts';
import { paintMask } from '../../../canvas/paintMask.ts';
import { coverSentence } from '../../../components/CoverBar.tsx';
import { Icon } from '../../../components/Icon.tsx';
import { plotWords } from '../../../components/photoWords.ts';
import { useThumbnail } from '../../../components/useThumbnail.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import styles from './TeachTile.module.css';

interface TeachTileProps {
  readonly photo: PhotoSummary;
  readonly classes: readonly CoverClass[];
  /** Undefined: not read yet; null: it cannot be read. */
  readonly applied: AppliedLesson | null | undefined;
  readonly strokes: number;
  readonly isOpen: boolean;
  /** One of those to begin with. */
  readonly isProposed: boolean;
  readonly nameOf: (classId: string) => string;
  readonly onOpen: () => void;
}

/** A photo of the date in small with what the lesson says of it. */
export function TeachTile(props: TeachTileProps) {
  const { photo, classes, applied, strokes, isOpen, isProposed, nameOf, onOpen } = props;
  const url = useThumbnail(photo.id, photo.figure ? 'measured' : '');
  const { widthPx, heightPx, plot } = photo;
  const reasons = (applied?.reasons ?? []).map((reason) => doubtReasonText(reason, nameOf));
  const cover = applied
    ? coverSentence(classes, applied.coverFraction)
    : applied === null
      ? teach.unreadable
      : teach.unread;
  return (
    <button
      type="button"
      className={isOpen ? `${styles.tile} ${styles.open}` : styles.tile}
      aria-current={isOpen ? 'true' : undefined}
      title={reasons.join('\n') || undefined}
      onClick={onOpen}
    >
      <span className={styles.picture} style={{ aspectRatio: `${widthPx ?? 4} / ${heightPx ?? 3}` }}>
        {url && <img src={url} alt="" />}
        {applied && widthPx && heightPx && (
          <SmallMask applied={applied} classes={classes} widthPx={widthPx} heightPx={heightPx} />
        )}
        {isProposed && (
          <span className={styles.proposed} aria-hidden="true">
            <Icon name="brush" size={14} />
            {teach.startHere}
          </span>
        )}
        {strokes > 0 && (
          <span className={styles.strokes}>
            <Icon name="brush" size={14} />
            {strokes}
          </span>
        )}
        {reasons.length > 0 && (
          <span className={styles.doubt}>
            <Icon name="trouble" size={16} />
          </span>
        )}
      </span>
      <span className={styles.words}>{plotWords(plot)}</span>
      <span className="visually-hidden">
        {isProposed ? `${teach.startHere}. ` : ''}
        {teach.tile(strokes, cover, reasons)}
      </span>
    </button>
  );
}

interface SmallMaskProps {
  readonly applied: AppliedLesson;
  readonly classes: readonly CoverClass[];
  readonly widthPx: number;
  readonly heightPx: number;
}

function SmallMask({ applied, classes, widthPx, heightPx }: SmallMaskProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const { mask, leftPx, topPx, cellPx } = applied.placed;
  useEffect(() => {
    const context = canvas.current!.getContext('2d')!;
    const picture = new ImageData(mask.widthPx, mask.heightPx);
    const style = {
      classes,
      shown: new Set(classes.map(({ id }) => id)),
      patterns: false,
      outlines: false,
    };
    const view = { scale: 1, origin: screenPoint(0, 0) };
    paintMask(mask, view, style, new Uint32Array(picture.data.buffer), mask.widthPx);
    context.putImageData(picture, 0, 0);
  }, [mask, classes]);
  const percent = (px: number, of: number) => `${(100 * px) / of}%`;
  return (
    <canvas
      ref={canvas}
      width={mask.widthPx}
      height={mask.heightPx}
      className={styles.mask}
      style={{
        left: percent(leftPx, widthPx),
        top: percent(topPx, heightPx),
        width: percent(mask.widthPx * cellPx, widthPx),
        height: percent(mask.heightPx * cellPx, heightPx),
      }}
    />
  );
}
