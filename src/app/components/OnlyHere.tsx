import { useMemo, useState } from 'react';
import { onlyHereText } from '../../core/text/field.ts';
import type { ArchiveWork } from '../session/archive.ts';
import { usePhotos, useSession } from '../session/useSession.tsx';
import { Button } from './Button.tsx';
import styles from './OnlyHere.module.css';

const isPhone = () => globalThis.matchMedia?.('(pointer: coarse)').matches ?? false;

interface OnlyHereProps {
  /** Of this rating date only; left out: of all photos. */
  readonly ratingDate?: string;
}

/** How many photos would be lost with this device, and the way to save them. Nothing where there are no photos. */
export function OnlyHere({ ratingDate }: OnlyHereProps) {
  const session = useSession();
  const photos = usePhotos();
  const [saving, setSaving] = useState<ArchiveWork | null>(null);
  const [told, setTold] = useState<string | null>(null);
  const count = useMemo(
    () =>
      photos.filter(
        (photo) =>
          !photo.exported &&
          (ratingDate === undefined || (photo.replaced?.ratingDate ?? photo.ratingDate) === ratingDate),
      ).length,
    [photos, ratingDate],
  );
  if (photos.length === 0) return null;
  const save = async () => {
    setTold(null);
    const { saveArchive } = await import('../session/saveArchive.ts');
    const outcome = await session.open(saveArchive(ratingDate, setSaving));
    setSaving(null);
    if (outcome.state === 'saved') setTold(onlyHereText.saved(outcome.report.photos));
    else if (outcome.state === 'failed') setTold(onlyHereText.failed(outcome.reason));
    else setTold(onlyHereText.cancelled);
  };
  const writing = saving?.kind === 'writing' ? saving : null;
  return (
    <section className={styles.line} aria-label={onlyHereText.label}>
      <p>{count === 0 ? onlyHereText.none : onlyHereText.count(count, isPhone())}</p>
      {count > 0 && (
        <Button disabled={writing !== null} onClick={() => void save()}>
          {ratingDate === undefined ? onlyHereText.save : onlyHereText.saveDate(ratingDate)}
        </Button>
      )}
      <p className={styles.told} role="status">
        {writing ? onlyHereText.saving(writing.photosDone, writing.photos) : told}
      </p>
    </section>
  );
}
