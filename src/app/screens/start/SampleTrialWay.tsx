import { useEffect, useRef, useState } from 'react';
import { app } from '../../../core/text/app.ts';
import { Button } from '../../components/Button.tsx';
import { Notice } from '../../components/Notice.tsx';
import type { SampleProgress } from '../../session/sampleTrial.ts';
import type { Session } from '../../session/session.ts';
import { useSession } from '../../session/useSession.tsx';
import styles from './StartScreen.module.css';

type Words = typeof import('../../../core/text/sampleTrial.ts')['sampleTrialText'];

/** Where taking it in stands; its words come with the first press. */
type Taking =
  | { readonly state: 'idle' }
  | { readonly state: 'working'; readonly words: Words | null; readonly progress: SampleProgress | null }
  | { readonly state: 'ended'; readonly said: string; readonly isTrouble: boolean };

/** Opens the sample trial in one press. When it is there the photos are, and this screen gives way to theirs. */
export function useSampleTrial() {
  const session = useSession();
  const [taking, setTaking] = useState<Taking>({ state: 'idle' });
  const working = useRef<AbortController | null>(null);
  useEffect(() => () => working.current?.abort(), []);
  const take = async () => {
    const abort = new AbortController();
    working.current = abort;
    setTaking({ state: 'working', words: null, progress: null });
    try {
      const [{ takeSampleTrial }, { sampleTrialText: words }] = await Promise.all([
        import('../../session/sampleTrial.ts'),
        import('../../../core/text/sampleTrial.ts'),
        storeOpened(session),
      ]);
      setTaking({ state: 'working', words, progress: null });
      const outcome = await session.open(
        takeSampleTrial(abort.signal, (progress) => setTaking({ state: 'working', words, progress })),
      );
      const end = (said: string, isTrouble: boolean) => setTaking({ state: 'ended', said, isTrouble });
      if (outcome.state === 'cancelled') end(words.cancelled, false);
      else if (outcome.state === 'other-trial') end(words.otherTrial(outcome.here), true);
      else if (outcome.state === 'failed') end(words.failed(outcome.reason), true);
    } catch (error) {
      console.error(error);
      const reason = error instanceof Error ? error.message : String(error);
      setTaking({ state: 'ended', said: app.adding.failed(reason), isTrouble: true });
    }
  };
  return { taking, take: () => void take(), cancel: () => working.current?.abort() };
}

/** The start screen stands before the store does. */
function storeOpened({ storageState }: Session): Promise<void> {
  return new Promise((resolve) => {
    const stop = storageState.subscribe(look);
    function look() {
      if (storageState.get().state === 'opening') return;
      stop();
      resolve();
    }
    look();
  });
}

/** How far it is, and what became of it. */
export function SampleTrialState({
  taking,
  cancel,
}: Pick<ReturnType<typeof useSampleTrial>, 'taking' | 'cancel'>) {
  if (taking.state === 'idle') return null;
  if (taking.state === 'ended') {
    return (
      <Notice kind={taking.isTrouble ? 'trouble' : 'remark'}>
        <p>{taking.said}</p>
      </Notice>
    );
  }
  const { words, progress } = taking;
  if (!words) return null;
  return (
    <div className={styles.taking}>
      <span role="status">
        {progress ? words.progress(progress.photosDone, progress.photos) : words.fetching}
      </span>
      <progress
        aria-label={words.progressLabel}
        max={progress?.photos ?? 1}
        value={progress?.photosDone ?? 0}
      />
      <Button onClick={cancel}>{words.cancel}</Button>
    </div>
  );
}
