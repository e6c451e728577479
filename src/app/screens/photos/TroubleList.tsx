import { useId, useMemo } from 'react';
import { app } from '../../../core/text/app.ts';
import { Button } from '../../components/Button.tsx';
import { problemText } from '../../components/problemText.ts';
import type { PhotoSummary } from '../../session/session.ts';
import { useSession } from '../../session/useSession.tsx';
import styles from './TroubleList.module.css';

/** The photos that could not be measured, each with what is wrong and what helps. */
export function TroubleList({ photos }: { photos: readonly PhotoSummary[] }) {
  const session = useSession();
  const headingId = useId();
  const failed = useMemo(() => photos.filter(({ work }) => work === 'failed'), [photos]);
  if (failed.length === 0) return null;
  const ids = failed.map(({ id }) => id);
  return (
    <section className={styles.trouble} aria-labelledby={headingId}>
      <header>
        <div>
          <h2 id={headingId}>{app.photos.troubleTitle(failed.length)}</h2>
          <p>{app.photos.troubleHint}</p>
        </div>
        <Button onClick={() => session.retry(ids)}>{app.photos.retryAll}</Button>
      </header>
      <ul>
        {failed.map(({ id, name, problem }) => (
          <li key={id}>
            <b>{name}</b>
            <span>{problem && problemText(problem)}</span>
            <Button look="quiet" onClick={() => session.removePhotos([id])}>
              {app.photos.remove}
              <span className="visually-hidden"> {name}</span>
            </Button>
          </li>
        ))}
      </ul>
    </section>
  );
}
