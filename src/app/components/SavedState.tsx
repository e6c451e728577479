import { app } from '../../core/text/app.ts';
import { useObservable, useSession } from '../session/useSession.tsx';
import styles from './SavedState.module.css';

const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' });

/** When the last change was safely stored. */
export function SavedState() {
  const storage = useObservable(useSession().storageState);
  if (storage.state !== 'ready' || !storage.savedAt) return null;
  return <span className={styles.saved}>{app.storage.savedAt(clock.format(new Date(storage.savedAt)))}</span>;
}
