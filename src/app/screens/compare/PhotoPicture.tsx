import { useThumbnail } from '../../components/useThumbnail.ts';
import type { PhotoSummary } from '../../session/session.ts';
import styles from './CompareScreen.module.css';

/** The small picture of a photo. */
export function PhotoPicture({ photo }: { photo: PhotoSummary }) {
  const url = useThumbnail(photo.id, photo.figure?.measuredAt ?? '');
  return url && <img className={styles.place} src={url} alt="" draggable={false} decoding="async" />;
}
