import { useState } from 'react';
import { app } from '../../../core/text/app.ts';
import { Button } from '../../components/Button.tsx';
import { EditDialog } from '../../components/EditDialog.tsx';
import { dateWords, plotWords } from '../../components/photoWords.ts';
import type { PhotoSummary } from '../../session/session.ts';
import styles from './PhotoTitle.module.css';

/** Which plot and day the photo belongs to, and the way to put that right. */
export function PhotoTitle({ photo }: { photo: PhotoSummary }) {
  const [editing, setEditing] = useState(false);
  const { plot, ratingDate, namedBy } = photo;
  return (
    <header className={styles.title}>
      <div>
        <h1>{plotWords(plot)}</h1>
        <p>
          {dateWords(ratingDate)}
          {namedBy && <span className={styles.origin}> · {app.photos.namedBy[namedBy]}</span>}
        </p>
      </div>
      <Button look="quiet" onClick={() => setEditing(true)}>
        {app.cover.editTitle}
      </Button>
      {editing && <EditDialog photos={[photo]} onClose={() => setEditing(false)} />}
    </header>
  );
}
