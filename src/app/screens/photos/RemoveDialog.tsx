import { useState } from 'react';
import { app } from '../../../core/text/app.ts';
import { Button } from '../../components/Button.tsx';
import { Dialog } from '../../components/Dialog.tsx';
import styles from '../../components/EditDialog.module.css';
import type { PhotoSummary } from '../../session/session.ts';
import { useSession } from '../../session/useSession.tsx';

interface RemoveDialogProps {
  readonly photos: readonly PhotoSummary[];
  readonly onClose: () => void;
  readonly onRemoved: (count: number) => void;
}

/** Asks before photos and all that was made from them are taken out. */
export function RemoveDialog({ photos, onClose, onRemoved }: RemoveDialogProps) {
  const session = useSession();
  const [asked] = useState(photos);
  const remove = async () => {
    onClose();
    await session.removePhotos(asked.map(({ id }) => id));
    onRemoved(asked.length);
  };
  return (
    <Dialog title={app.removing.title(asked.length)} onClose={onClose}>
      <p>{app.removing.body}</p>
      <div className={styles.actions}>
        <Button onClick={onClose}>{app.removing.cancel}</Button>
        <Button look="main" onClick={remove}>
          {app.removing.confirm}
        </Button>
      </div>
    </Dialog>
  );
}
