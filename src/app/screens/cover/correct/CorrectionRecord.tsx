import { useState } from 'react';
import { correct } from '../../../../core/text/correct.ts';
import { formatInstant } from '../../../../core/text/format.ts';
import { Button } from '../../../components/Button.tsx';
import type { CorrectingState } from '../../../session/correcting/correctingState.ts';
import type { Correcting } from '../../../session/correcting.ts';
import styles from './CorrectPanel.module.css';

/** Gestures shown; the others are in the store. */
const SHOWN = 5;

interface CorrectionRecordProps {
  readonly correcting: Correcting;
  readonly state: CorrectingState;
  readonly names: readonly string[];
  readonly by: string;
  readonly onBy: (name: string) => void;
}

/** What was corrected, by whom, and why. */
export function CorrectionRecord({ correcting, state, names, by, onBy }: CorrectionRecordProps) {
  const { gestures, summary, unstored } = state;
  const [reason, setReason] = useState('');
  const [taught, setTaught] = useState<number | null>(null);
  const withoutReason = gestures.filter((gesture) => gesture.reason === null);
  return (
    <section className={styles.section}>
      <h2>{correct.recordTitle}</h2>
      <p role="status">{unstored > 0 ? correct.storing : correct.stored(gestures.length)}</p>
      {summary && summary.changedFraction + summary.confirmedFraction > 0 && (
        <>
          <p>{correct.changed(summary)}</p>
          <ul className={styles.soft}>
            {summary.pairs.map(({ from, to, groundFraction }) => (
              <li key={`${from} ${to}`}>{correct.pair(names[from - 1]!, names[to - 1]!, groundFraction)}</li>
            ))}
          </ul>
        </>
      )}
      <div className={styles.field}>
        <label htmlFor="corrected-by">{correct.by}</label>
        <input
          id="corrected-by"
          value={by}
          autoComplete="off"
          aria-describedby="corrected-by-hint"
          onChange={({ target }) => onBy(target.value)}
        />
      </div>
      <p id="corrected-by-hint" className={styles.soft}>
        {correct.byHint}
      </p>
      {withoutReason.length > 0 && (
        <form
          className={styles.reason}
          onSubmit={(event) => {
            event.preventDefault();
            if (reason.trim() === '') return;
            const sequences = withoutReason.map(({ sequence }) => sequence);
            void correcting.giveReason(sequences, reason.trim()).then(() => setReason(''));
          }}
        >
          <div className={styles.field}>
            <label htmlFor="correction-reason">{correct.reason}</label>
            <input
              id="correction-reason"
              value={reason}
              autoComplete="off"
              aria-describedby="correction-reason-hint"
              onChange={({ target }) => setReason(target.value)}
            />
          </div>
          <p id="correction-reason-hint" className={styles.soft}>
            {correct.reasonHint}
          </p>
          {reason.trim() !== '' && <Button type="submit">{correct.keepReason}</Button>}
        </form>
      )}
      {gestures.length > 0 && (
        <>
          <h3>{correct.gesturesOf(gestures.length)}</h3>
          <ol className={styles.gestures}>
            {gestures.slice(0, SHOWN).map(({ sequence, gesture, pixels, by: author, at, reason: why }) => (
              <li key={sequence}>
                <span>{correct.gesture(correct.gestureNames[gesture] ?? gesture, pixels)}</span>
                <span className={styles.soft}>
                  {[author || correct.noName, formatInstant(at), why].filter(Boolean).join(' · ')}
                </span>
              </li>
            ))}
          </ol>
          <Button
            className={styles.teach}
            onClick={() => void correcting.teach().then((count) => setTaught(count))}
          >
            {correct.teach}
          </Button>
          <p className={styles.soft} role="status">
            {taught === null ? correct.teachHint : correct.taught(taught)}
          </p>
        </>
      )}
    </section>
  );
}
