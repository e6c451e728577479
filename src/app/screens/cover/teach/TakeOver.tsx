import { useMemo } from 'react';
import { teach } from '../../../../core/text/teach.ts';
import blocks from '../../../components/blocks.module.css';
import type { Teaching, TeachingState } from '../../../session/teaching.ts';
import { usePhotos } from '../../../session/useSession.tsx';
import styles from './TeachPanel.module.css';

/** Other dates with strokes, which may teach this one as well. */
export function TakeOver({ teaching, state }: { teaching: Teaching; state: TeachingState }) {
  const photos = usePhotos();
  const { strokes, takenOver } = state;
  const dates = useMemo(() => {
    const counts = new Map<string, number>();
    for (const { id, ratingDate } of photos) {
      const count = strokes.get(id)?.length ?? 0;
      if (count === 0 || ratingDate === null || ratingDate === teaching.ratingDate) continue;
      counts.set(ratingDate, (counts.get(ratingDate) ?? 0) + count);
    }
    return [...counts].sort(([a], [b]) => (a < b ? -1 : 1));
  }, [photos, strokes, teaching.ratingDate]);
  if (dates.length === 0) return null;
  return (
    <fieldset className={`${blocks.choices} ${styles.takeOver}`}>
      <legend>{teach.takeOverTitle}</legend>
      {dates.map(([date, count]) => (
        <label key={date}>
          <input
            type="checkbox"
            checked={takenOver.includes(date)}
            onChange={({ target }) =>
              void teaching.takeOver(
                target.checked ? [...takenOver, date] : takenOver.filter((other) => other !== date),
              )
            }
          />
          {teach.takeOver(date, count)}
        </label>
      ))}
      <p>{teach.takeOverHint}</p>
    </fieldset>
  );
}
