import { app } from '../../../core/text/app.ts';
import styles from './CoverScreen.module.css';
import type { usePhotoPicture } from './usePhotoPicture.ts';

interface PictureStateProps {
  readonly picture: ReturnType<typeof usePhotoPicture>;
  /** File name of the photo. */
  readonly name: string;
}

/** Stands on the stage while a photo comes, or where it cannot be shown. */
export function PictureState({ picture, name }: PictureStateProps) {
  if (picture.state === 'loading') return <p className={styles.loading}>{app.cover.loading}</p>;
  if (picture.state === 'failed') return <p className={styles.cannot}>{app.cover.cannotShow(name)}</p>;
  return null;
}
