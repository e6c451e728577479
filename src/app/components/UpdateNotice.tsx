import { offlineText } from '../../core/text/offline.ts';
import { useOffline } from '../offline/useOffline.tsx';
import { Button } from './Button.tsx';
import { Notice } from './Notice.tsx';
import styles from './StorageNotices.module.css';

/** Offers a newer version; nothing happens before it is chosen. */
export function UpdateNotice() {
  const { update, takeUpdate } = useOffline();
  if (!update) return null;
  return (
    <div className={styles.notices}>
      <Notice>
        <p>{offlineText.update}</p>
        <Button onClick={takeUpdate}>{offlineText.takeUpdate}</Button>
      </Notice>
    </div>
  );
}
