import { app } from '../../../core/text/app.ts';
import { Button } from '../../components/Button.tsx';
import { Icon } from '../../components/Icon.tsx';
import styles from './SelectionBar.module.css';

interface SelectionBarProps {
  readonly count: number;
  readonly onEdit: () => void;
  readonly onRemove: () => void;
  readonly onRetry: () => void;
  readonly onClear: () => void;
}

/** What can be done with the selected photos, at the lower edge where the thumb is. */
export function SelectionBar({ count, onEdit, onRemove, onRetry, onClear }: SelectionBarProps) {
  return (
    <div className={styles.bar} role="toolbar" aria-label={app.photos.selected(count)}>
      <span role="status">{app.photos.selected(count)}</span>
      <Button look="quiet" onClick={onEdit}>
        {app.photos.edit}
      </Button>
      <Button look="quiet" onClick={onRetry}>
        {app.photos.retry}
      </Button>
      <Button look="quiet" onClick={onRemove}>
        {app.photos.remove}
      </Button>
      <Button look="quiet" aria-label={app.photos.selectNone} onClick={onClear}>
        <Icon name="close" />
      </Button>
    </div>
  );
}
