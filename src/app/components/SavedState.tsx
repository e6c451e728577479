import { app } from '../../core/text/app.ts';
import { formatTime } from '../../core/text/format.ts';
import { useObservable, useSession } from '../session/useSession.tsx';
import styles from './SavedState.module.css';

/** When the last change was safely stored. */
export function SavedState() {
  const storage = useObservable(useSession().storageState);
  if (storage.state !== 'ready' || !storage.savedAt) return null;
  return <span className={styles.saved}>{app.storage.savedAt(formatTime(storage.savedAt))}</span>;
}
