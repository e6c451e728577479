import { archiveText } from '../../../core/text/archive.ts';
import { Notice } from '../../components/Notice.tsx';
import type { LookedInto } from '../../session/archive.ts';
import styles from './FilesPanel.module.css';

const text = archiveText.open;

/** What an archive would bring, in a few lines. */
export function Brought({ inspection }: { inspection: Extract<LookedInto, { ok: true }>['inspection'] }) {
  const { archive, side, plan, missingPhotos } = inspection;
  const { trial, createdAt, part, ratingDates } = archive.manifest;
  const { photos, scores, added } = plan.summary;
  const records = Object.values(added).reduce((sum, count) => sum + count, 0);
  const lines = [
    text.plan[plan.summary.trial],
    photos.new > 0 && text.photosNew(photos.new),
    photos.continued > 0 && text.photosContinued(photos.continued),
    scores.new + scores.continued > 0 && text.scoresNew(scores.new + scores.continued),
    records > 0 && text.records(records),
    photos.behind > 0 && text.photosBehind(photos.behind),
    photos.same > 0 && text.photosSame(photos.same),
  ].filter((line): line is string => Boolean(line));
  const { puts, deletes } = plan.changes(new Map());
  const bringsNothing = puts.length + deletes.length + plan.conflicts.length === 0;
  return (
    <div className={styles.brought}>
      <div className={styles.told}>
        <p className={styles.state}>{text.head(trial?.name ?? null, createdAt)}</p>
        {part && (
          <p>
            {text.part(
              part.ratingDate,
              ratingDates.filter((date) => date !== part.ratingDate),
            )}
          </p>
        )}
      </div>
      {bringsNothing ? (
        <Notice>{text.nothingNew}</Notice>
      ) : (
        <>
          <h4>{text.brings}</h4>
          <ul className={styles.brings}>
            {lines.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </>
      )}
      {missingPhotos.length + side.leftOut.length > 0 && (
        <Notice kind="trouble">
          <div className={styles.told}>
            {missingPhotos.length > 0 && <p>{text.missing(missingPhotos)}</p>}
            {side.leftOut.length > 0 && <p>{text.leftOut(side.leftOut.length)}</p>}
          </div>
        </Notice>
      )}
    </div>
  );
}
