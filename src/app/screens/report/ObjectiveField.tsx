import { useEffect, useId, useState } from 'react';
import { reportText } from '../../../core/text/report.ts';
import { Button } from '../../components/Button.tsx';
import { TextField } from '../../components/TextField.tsx';
import type { Reporting } from '../../session/report.ts';
import styles from './ReportScreen.module.css';

const text = reportText.screen;

/** As the plan holds it. */
const MOST_CHARACTERS = 5000;

interface ObjectiveFieldProps {
  readonly reporting: Reporting;
  readonly objective: string | null;
}

/** What the trial is to find out: written here, kept in the plan with who wrote it. */
export function ObjectiveField({ reporting, objective }: ObjectiveFieldProps) {
  const stored = objective ?? '';
  const [written, setWritten] = useState(stored);
  const [who, setWho] = useState('');
  const id = useId();
  useEffect(() => setWritten(stored), [stored]);
  const changed = written.trim() !== stored;
  return (
    <section className={styles.objective} aria-label={text.objective}>
      <div className={styles.group}>
        <h2>
          <label htmlFor={id}>{text.objective}</label>
        </h2>
        <textarea
          id={id}
          value={written}
          maxLength={MOST_CHARACTERS}
          aria-describedby={`${id}-hint`}
          onChange={(event) => setWritten(event.target.value)}
        />
        <p id={`${id}-hint`} className={styles.hint}>
          {text.objectiveHint}
        </p>
      </div>
      {changed && (
        <>
          <TextField label={text.who} value={who} onChange={setWho} />
          <Button
            disabled={who.trim() === ''}
            onClick={() =>
              void reporting.setObjective(written, { who: who.trim(), why: text.objectiveReason })
            }
          >
            {text.keepObjective}
          </Button>
        </>
      )}
    </section>
  );
}
