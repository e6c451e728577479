import type { PhotoSummary } from '../../session/session.ts';
import styles from './PhotoCard.module.css';

/** The frame that was found, on the small picture: many can be judged at a glance. Nothing once it is settled. */
export function FrameOnThumbnail({ photo }: { photo: PhotoSummary }) {
  const { frame, frameBy, offeredFrame, widthPx, heightPx } = photo;
  const corners = frameBy === 'finder' ? frame?.corners : offeredFrame;
  if (!corners || !widthPx || !heightPx) return null;
  const points = corners.map((corner) => corner.join(',')).join(' ');
  return (
    <svg
      className={styles.frame}
      viewBox={`0 0 ${widthPx} ${heightPx}`}
      preserveAspectRatio="xMidYMid slice"
      aria-hidden="true"
    >
      <polygon points={points} className={styles.frameHalo} />
      <polygon points={points} className={frameBy === 'finder' ? styles.frameLine : styles.frameOffered} />
    </svg>
  );
}
