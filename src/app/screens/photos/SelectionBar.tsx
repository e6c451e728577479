import { app } from '../../../core/text/app.ts';
import { area } from '../../../core/text/area.ts';
import { Button } from '../../components/Button.tsx';
import { Icon } from '../../components/Icon.tsx';
import styles from './SelectionBar.module.css';

interface SelectionBarProps {
  readonly count: number;
  readonly onEdit: () => void;
  readonly onRemove: () => void;
  readonly onRetry: () => void;
  /** Confirms found frames; null where none of the selected waits for that. */
  readonly onConfirm: (() => void) | null;
  readonly onClear: () => void;
}

/** What can be done with the selected photos, at the lower edge where the thumb is. */
export function SelectionBar({ count, onEdit, onRemove, onRetry, onConfirm, onClear }: SelectionBarProps) {
  return (
    <div className={styles.bar} role="toolbar" aria-label={app.photos.selected(count)}>
      <span role="status">{app.photos.selected(count)}</span>
      {onConfirm && (
        <Button look="quiet" onClick={onConfirm}>
          {area.confirmAll}
        </Button>
      )}
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
