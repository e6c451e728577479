import { useState } from 'react';
import { review } from '../../../../core/text/review.ts';
import { Button } from '../../../components/Button.tsx';
import { Icon } from '../../../components/Icon.tsx';
import { TextField } from '../../../components/TextField.tsx';
import type { Reviewing, ReviewingState } from '../../../session/reviewing.ts';
import styles from './ReviewScreen.module.css';

interface SignOffProps {
  readonly reviewing: Reviewing;
  readonly state: ReviewingState;
  /** Photos looked at. */
  readonly done: number;
  readonly by: string;
}

/** Sealing the date, and what became of it since. */
export function SignOff({ reviewing, state, done, by }: SignOffProps) {
  const { queue, signOffs, seal, unreadable } = state;
  const [reason, setReason] = useState('');
  const last = signOffs.at(-1);
  const isChanged = last !== undefined && seal !== null && seal !== last.sha256;
  const hasName = by.trim() !== '';
  return (
    <section className={styles.section}>
      <h2>{review.signOffTitle}</h2>
      {!last && <p>{review.signOffIntro(reviewing.ratingDate)}</p>}
      {(!last || isChanged) && done < queue.length && <p>{review.signOffPart(done, queue.length)}</p>}
      {signOffs.map((one) => (
        <div key={one.id} className={styles.signed}>
          <p>
            {one.reason === null ? review.signed(one.by, one.at) : review.amended(one.by, one.at, one.reason)}
          </p>
          <p className={styles.soft}>{review.signedPart(one.lookedAt, one.photoIds.length)}</p>
          <p className={styles.hash}>
            {review.hash} <code>{one.sha256}</code>
          </p>
        </div>
      ))}
      {last && seal !== null && (
        <p role="status" className={isChanged ? styles.changed : undefined}>
          {isChanged && <Icon name="trouble" size={18} />}
          <span>{isChanged ? `${review.changed} ${review.changedHint}` : review.unchanged}</span>
        </p>
      )}
      {unreadable.length > 0 && <p role="alert">{review.unreadable(unreadable)}</p>}
      {!hasName && (!last || isChanged) && <p className={styles.soft}>{review.nameFirst}</p>}
      {!last && (
        <Button
          disabled={!hasName || seal === null || queue.length === 0}
          onClick={() => void reviewing.signOff(null)}
        >
          {review.signOff(reviewing.ratingDate)}
        </Button>
      )}
      {isChanged && (
        <>
          <TextField label={review.reason} value={reason} onChange={setReason} />
          <Button
            disabled={!hasName || reason.trim() === ''}
            onClick={() => void reviewing.signOff(reason.trim()).then(() => setReason(''))}
          >
            {review.amend}
          </Button>
        </>
      )}
    </section>
  );
}
