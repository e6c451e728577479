import { archiveText } from '../../../core/text/archive.ts';
import { Button } from '../../components/Button.tsx';
import styles from './FilesPanel.module.css';

interface WorkProgressProps {
  readonly label: string;
  readonly words: string;
  readonly done: number;
  readonly all: number;
  readonly onCancel: () => void;
}

/** How far writing or taking in has come, with the way to stop it. */
export function WorkProgress({ label, words, done, all, onCancel }: WorkProgressProps) {
  return (
    <div className={styles.progress}>
      <span>{words}</span>
      <progress aria-label={label} max={Math.max(1, all)} value={done} />
      <Button onClick={onCancel}>{archiveText.save.cancel}</Button>
    </div>
  );
}
