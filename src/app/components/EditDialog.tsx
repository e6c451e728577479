import { type FormEvent, useState } from 'react';
import { app } from '../../core/text/app.ts';
import type { PhotoSummary } from '../session/session.ts';
import { useSession } from '../session/useSession.tsx';
import { Button } from './Button.tsx';
import { Dialog } from './Dialog.tsx';
import styles from './EditDialog.module.css';
import { FormField } from './FormField.tsx';

/** The value that all photos share, or null. */
function shared<T>(values: readonly (T | null)[]): T | null {
  return values.every((value) => value === values[0]) ? (values[0] ?? null) : null;
}

/** Sets plot and rating date of one photo, or of many at once. */
export function EditDialog({ photos, onClose }: { photos: readonly PhotoSummary[]; onClose: () => void }) {
  const session = useSession();
  // what the dialog was opened with stays its matter, whatever is measured meanwhile
  const [before] = useState({
    photos,
    plot: shared(photos.map(({ plot }) => plot)) ?? '',
    date: shared(photos.map(({ ratingDate }) => ratingDate)) ?? '',
  });
  const [plot, setPlot] = useState(before.plot);
  const [date, setDate] = useState(before.date);
  const many = before.photos.length > 1;

  const save = async (event: FormEvent) => {
    event.preventDefault();
    const change = {
      ...(plot.trim() !== before.plot && { plot: plot.trim() || null }),
      ...(date !== before.date && { ratingDate: date || null }),
    };
    onClose();
    if (Object.keys(change).length === 0) return;
    for (const photo of before.photos) await session.changePhoto(photo.id, change);
  };
  return (
    <Dialog title={app.editing.title(before.photos.length)} onClose={onClose}>
      <form className={styles.form} onSubmit={save}>
        {!many && <p className={styles.name}>{before.photos[0]!.name}</p>}
        <FormField
          label={app.photos.plotWord}
          value={plot}
          onChange={setPlot}
          longest={60}
          hint={many ? `${app.editing.plotHint} ${app.editing.keepHint}` : app.editing.plotHint}
        />
        <FormField label={app.photos.dateWord} kind="date" value={date} onChange={setDate} />
        <div className={styles.actions}>
          <Button onClick={onClose}>{app.editing.cancel}</Button>
          <Button look="main" type="submit">
            {app.editing.save}
          </Button>
        </div>
      </form>
    </Dialog>
  );
}
