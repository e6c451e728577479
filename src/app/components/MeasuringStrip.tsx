import { useEffect, useRef, useState } from 'react';
import { app } from '../../core/text/app.ts';
import type { Progress } from '../session/session.ts';
import { useObservable, useSession } from '../session/useSession.tsx';
import { useAddPhotos } from './AddPhotos.tsx';
import { Button } from './Button.tsx';
import styles from './MeasuringStrip.module.css';
import { Notice } from './Notice.tsx';
import { useWakeLock } from './useWakeLock.ts';

const finished = ({ done, failed }: Progress) => done + failed;
const isBusy = (progress: Progress) => finished(progress) < progress.total;

/** How far measuring has come, with pause and cancel; nothing while nothing is measured. */
export function MeasuringStrip() {
  const session = useSession();
  const progress = useObservable(session.progress);
  const { total, failed, paused } = progress;
  const cancel = useCancel();
  const busy = isBusy(progress);
  // a phone that goes dark in the middle of a batch stops measuring
  useWakeLock(busy && !paused && total > 1);
  return (
    <>
      <Announcement progress={progress} />
      {progress.trouble && (
        <Notice kind="trouble">
          <p>{app.measuring.trouble[progress.trouble.code](progress.trouble.detail)}</p>
          <Button onClick={() => session.resume()}>{app.measuring.tryAgain}</Button>
        </Notice>
      )}
      {/* a single photo says on its own screen that it is being measured */}
      {busy && (total > 1 || paused) && (
        <section className={styles.strip} aria-label={app.measuring.label}>
          <span className={styles.words}>
            {cancel.pending
              ? app.measuring.cancelling
              : paused
                ? app.measuring.paused(finished(progress), total)
                : app.measuring.progress(finished(progress), total)}
            {failed > 0 && <span className={styles.failed}> · {app.measuring.failed(failed)}</span>}
          </span>
          <progress
            className={styles.bar}
            max={total}
            value={finished(progress)}
            aria-label={app.measuring.label}
          />
          <span className={styles.actions}>
            <Button
              look="quiet"
              disabled={cancel.pending}
              onClick={() => (paused ? session.resume() : session.pause())}
            >
              {paused ? app.measuring.resume : app.measuring.pause}
            </Button>
            <Button look="quiet" disabled={cancel.pending} onClick={cancel.run}>
              {app.measuring.cancel}
            </Button>
          </span>
        </section>
      )}
    </>
  );
}

/**
 * Cancels measuring. Photos that are still being added would join the queue afterwards, so then measuring rests until
 * all of them are there and is cancelled for all.
 */
function useCancel() {
  const session = useSession();
  const { adding } = useAddPhotos();
  const [pending, setPending] = useState(false);
  const isAdding = adding.state === 'working';
  useEffect(() => {
    if (!pending || isAdding) return;
    void session
      .cancelAll()
      .then(() => session.resume())
      .finally(() => setPending(false));
  }, [pending, isAdding, session]);
  const run = () => {
    if (!isAdding) {
      void session.cancelAll();
      return;
    }
    setPending(true);
    void session.pause();
  };
  return { pending, run };
}

/** Tells a screen reader of the beginning and the end, not of every photo between. */
function Announcement({ progress }: { progress: Progress }) {
  const [words, setWords] = useState('');
  const last = useRef(progress);
  useEffect(() => {
    const before = last.current;
    last.current = progress;
    if (!isBusy(before) && isBusy(progress)) setWords(app.measuring.started(progress.total));
    else if (isBusy(before) && !isBusy(progress)) {
      const cancelled = progress.total < before.total;
      setWords(cancelled ? app.measuring.cancelled : app.measuring.finished(progress.done, progress.failed));
    }
  }, [progress]);
  return (
    <p className="visually-hidden" role="status">
      {words}
    </p>
  );
}
