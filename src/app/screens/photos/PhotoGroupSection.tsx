import { useId } from 'react';
import { Link } from 'wouter';
import { app } from '../../../core/text/app.ts';
import { review } from '../../../core/text/review.ts';
import type { PhotoGroup, PhotoOrder } from '../../components/photoOrder.ts';
import { dateWords, plotWords } from '../../components/photoWords.ts';
import type { PhotoSummary } from '../../session/session.ts';
import { MixedDevices } from './MixedDevices.tsx';
import { PhotoCard } from './PhotoCard.tsx';
import styles from './PhotosScreen.module.css';
import type { Selection } from './useSelection.ts';

interface PhotoGroupSectionProps {
  readonly group: PhotoGroup<PhotoSummary>;
  readonly order: PhotoOrder;
  readonly selection: Selection<PhotoSummary>;
}

/** The photos of one rating date, or of one plot. */
export function PhotoGroupSection({ group, order, selection }: PhotoGroupSectionProps) {
  const headingId = useId();
  const ids = group.photos.map(({ id }) => id);
  const words = order === 'date' ? dateWords(group.key) : plotWords(group.key);
  return (
    <section aria-labelledby={headingId} className={styles.group}>
      <header className={styles.groupHead}>
        <label className={styles.check}>
          <input
            type="checkbox"
            checked={ids.every((id) => selection.has(id))}
            onChange={() => selection.toggleAll(ids)}
            aria-label={app.photos.selectGroup(words)}
          />
        </label>
        <h2 id={headingId}>{words}</h2>
        <span className={styles.soft}>{app.photos.groupSummary(ids.length)}</span>
        {order === 'date' && group.key !== null && (
          <Link href={`/review/${group.key}`} className={styles.review} aria-label={review.title(group.key)}>
            {review.word}
          </Link>
        )}
      </header>
      {order === 'date' && group.key !== null && <MixedDevices photos={group.photos} />}
      <ul className={styles.cards}>
        {group.photos.map((photo) => (
          <PhotoCard
            key={photo.id}
            photo={photo}
            order={order}
            selected={selection.has(photo.id)}
            onToggle={selection.toggle}
          />
        ))}
      </ul>
    </section>
  );
}
