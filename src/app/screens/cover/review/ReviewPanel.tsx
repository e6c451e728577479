import { useMemo, useState } from 'react';
import { review } from '../../../../core/text/review.ts';
import type { Command } from '../../../commands/command.ts';
import { Button } from '../../../components/Button.tsx';
import blocks from '../../../components/blocks.module.css';
import { dateWords, plotWords } from '../../../components/photoWords.ts';
import { SelectField } from '../../../components/SelectField.tsx';
import { TextField } from '../../../components/TextField.tsx';
import {
  isLookedAt,
  type ReviewedPhoto,
  type Reviewing,
  type ReviewingState,
} from '../../../session/reviewing.ts';
import { TreatmentShares } from '../correct/TreatmentShares.tsx';
import { useTreatmentCorrections } from '../correct/useTreatmentCorrections.ts';
import { Remarks } from '../Remarks.tsx';
import styles from './ReviewScreen.module.css';
import { SignOff } from './SignOff.tsx';

interface ReviewPanelProps {
  readonly reviewing: Reviewing;
  readonly state: ReviewingState;
  readonly open: ReviewedPhoto;
  readonly date: string;
  readonly dates: readonly string[];
  readonly onDate: (date: string) => void;
  readonly by: string;
  readonly onBy: (name: string) => void;
  readonly onOpen: (photoId: string) => void;
  readonly withdraw: Command;
}

/** Where the review stands, why this photo is here, the queue, and signing off. */
export function ReviewPanel(props: ReviewPanelProps) {
  const { reviewing, state, open, date, dates, onDate, by, onBy, onOpen, withdraw } = props;
  const { queue, unmeasured } = state;
  const { photo, place, review: verdict, outdated } = open;
  const done = queue.filter(isLookedAt).length;
  const photos = useMemo(() => queue.map((one) => one.photo), [queue]);
  const reviewed = useMemo(() => new Set(queue.filter(isLookedAt).map((one) => one.photo.id)), [queue]);
  const [shown, setShown] = useState(false);
  const shares = useTreatmentCorrections(photos, reviewed, shown);
  const names = open.figure.settings.classes.map(({ name }) => name.replace(/\s*\(.*\)$/, ''));
  return (
    <aside className={blocks.beside}>
      <header className={styles.title}>
        <h1>{review.title(date)}</h1>
        {dates.length > 1 && (
          <SelectField
            label={review.date}
            value={date}
            choices={dates.map((one) => [one, dateWords(one)] as const)}
            onChange={onDate}
          />
        )}
        <progress value={done} max={queue.length} aria-label={review.progress(done, queue.length)} />
        <p role="status">{done === queue.length ? review.allDone : review.progress(done, queue.length)}</p>
        {unmeasured > 0 && <p>{review.unmeasured(unmeasured)}</p>}
      </header>
      <section className={styles.section}>
        <h2>{plotWords(photo.plot)}</h2>
        <p>
          {verdict
            ? review.verdictBy(review.verdicts[verdict.verdict], verdict.by, verdict.at)
            : review.notYet}
        </p>
        {outdated && <p>{review.outdated}</p>}
        {verdict && (
          <Button look="quiet" className={styles.quiet} onClick={withdraw.run}>
            {review.withdraw}
          </Button>
        )}
        <h3>{review.why}</h3>
        <Remarks photo={photo} />
        {photo.verdict === 'retake' && <p>{review.retake}</p>}
        {!place.isDoubted && <p>{review.noDoubt}</p>}
        <p className={styles.soft}>{review.unlike(Math.min(1, place.unlikeOthers))}</p>
      </section>
      <TextField label={review.by} value={by} onChange={onBy} hint={review.byHint} />
      <section className={styles.section}>
        <h2>{review.queue}</h2>
        <ol className={styles.queue}>
          {queue.map((one) => (
            <li key={one.photo.id}>
              <Button
                look="quiet"
                aria-current={one.photo.id === photo.id ? 'true' : undefined}
                onClick={() => onOpen(one.photo.id)}
              >
                <span>{plotWords(one.photo.plot)}</span>
                <span className={styles.soft}>{stateWords(one)}</span>
              </Button>
            </li>
          ))}
        </ol>
        <p className={styles.soft}>{review.honest}</p>
      </section>
      {shares && (
        <TreatmentShares
          shares={shares}
          classNames={names}
          shown={shown}
          onShow={() => void reviewing.noteTreatmentsShown(shares.trialId).then(() => setShown(true))}
        />
      )}
      <SignOff reviewing={reviewing} state={state} done={done} by={by} />
      <p className={styles.soft}>{review.caution}</p>
    </aside>
  );
}

function stateWords(one: ReviewedPhoto): string {
  const { review: verdict, outdated, place } = one;
  const words = verdict && !outdated ? review.verdicts[verdict.verdict] : review.notYet;
  return place.isDoubted ? `${review.doubted} · ${words}` : words;
}
