import { Link } from 'wouter';
import { app } from '../../core/text/app.ts';
import type { AddedFile } from '../session/session.ts';
import styles from './AddingReport.module.css';
import { type Adding, useAddPhotos } from './AddPhotos.tsx';
import { Button } from './Button.tsx';
import { Icon } from './Icon.tsx';
import { Notice } from './Notice.tsx';
import { problemText } from './problemText.ts';

/** What became of the files that were added last: counted when all is well, named when not. */
export function AddingReport() {
  const { adding, dismiss } = useAddPhotos();
  return (
    <>
      <p role="status" className={adding.state === 'working' ? styles.working : 'visually-hidden'}>
        {statusWords(adding)}
      </p>
      {adding.state === 'failed' && (
        <Notice kind="trouble">
          <p>{app.adding.failed(adding.reason)}</p>
        </Notice>
      )}
      {adding.state === 'done' && adding.files.some(({ state }) => state !== 'added') && (
        <Answer files={adding.files} onDismiss={dismiss} />
      )}
    </>
  );
}

function statusWords(adding: Adding): string {
  if (adding.state === 'working') {
    return adding.count === null ? app.adding.workingOnSamples : app.adding.working(adding.count);
  }
  if (adding.state !== 'done') return '';
  const count = (wanted: AddedFile['state']) => adding.files.filter(({ state }) => state === wanted).length;
  const [added, duplicates, refused] = [count('added'), count('duplicate'), count('refused')];
  return [
    added > 0 && app.adding.added(added),
    duplicates > 0 && app.adding.duplicates(duplicates),
    refused > 0 && app.adding.refused(refused),
  ]
    .filter(Boolean)
    .join(' ');
}

function Answer({ files, onDismiss }: { files: readonly AddedFile[]; onDismiss: () => void }) {
  const added = files.filter(({ state }) => state === 'added');
  const duplicates = files.filter((file) => file.state === 'duplicate');
  const refused = files.filter((file) => file.state === 'refused');
  return (
    <section className={styles.answer} aria-label={app.adding.reportLabel}>
      <header>
        <p>
          {added.length > 0 && <>{app.adding.added(added.length)} </>}
          {duplicates.length > 0 && <>{app.adding.duplicates(duplicates.length)} </>}
          {refused.length > 0 && <b>{app.adding.refused(refused.length)}</b>}
        </p>
        <Button look="quiet" aria-label={app.adding.dismiss} onClick={onDismiss}>
          <Icon name="close" />
        </Button>
      </header>
      <ul>
        {refused.map((file, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two refused files may bear one name, and the list never changes
          <li key={index}>
            <b>{file.name}</b> {problemText(file.problem)}
          </li>
        ))}
        {duplicates.length <= MOST_DUPLICATES_NAMED &&
          duplicates.map((file, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: as above
            <li key={index}>
              <b>{file.name}</b> {app.adding.duplicateOf}{' '}
              <Link href={`/cover/${file.photoId}`}>{file.duplicateOf}</Link>
            </li>
          ))}
      </ul>
    </section>
  );
}

/** More than this many are counted only: the same folder opened twice needs no list. */
const MOST_DUPLICATES_NAMED = 6;
