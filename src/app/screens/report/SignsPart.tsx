import { useEffect, useState } from 'react';
import { Link } from 'wouter';
import { reportText } from '../../../core/text/report.ts';
import { Button } from '../../components/Button.tsx';
import { Notice } from '../../components/Notice.tsx';
import { Segments } from '../../components/Segments.tsx';
import { oneOf, usePreference } from '../../components/usePreference.ts';
import type { TrialSession } from '../../session/trialSession.ts';
import { useObservable, useSession } from '../../session/useSession.tsx';
import './paper/paper.css';
import type { PaperSize } from './paper/ReportPaper.tsx';
import { SignsPaper, type SignsPaperProps } from './paper/SignsPaper.tsx';
import styles from './ReportScreen.module.css';

const text = reportText.signs;
const { screen } = reportText;

/** Signs for the plots, to be printed. */
export function SignsPart() {
  const session = useSession();
  const [trial, setTrial] = useState<TrialSession | null>(null);
  useEffect(() => {
    let left = false;
    session.openTrial().then(
      (opened) => {
        if (!left) setTrial(opened);
      },
      (error) => console.error('the trial cannot be opened', error),
    );
    return () => {
      left = true;
    };
  }, [session]);
  return trial ? <Signs session={trial} /> : <p role="status">{screen.opening}</p>;
}

function Signs({ session }: { session: TrialSession }) {
  const trial = useObservable(session.trial);
  const [paper, setPaper] = usePreference<PaperSize>('report.paper', 'a4', oneOf('a4', 'letter'));
  const [perPage, setPerPage] = usePreference<SignsPaperProps['perPage']>(
    'report.signs',
    'one',
    oneOf('one', 'four'),
  );
  // never kept: who prints signs again may print them for people who score
  const [treatment, setTreatment] = useState<SignsPaperProps['treatment']>('none');
  if (trial.state === 'unreadable') {
    return (
      <Notice kind="trouble">
        <p>{screen.unreadable}</p>
      </Notice>
    );
  }
  if (trial.state === 'none' || trial.plan.plots.length === 0) {
    return (
      <>
        <p className={styles.lead}>{text.needsPlots}</p>
        <p>
          <Link className={styles.link} href={trial.state === 'none' ? '/plan' : '/plan/layout'}>
            {trial.state === 'none' ? screen.noTrial.go : screen.missingItems.plots[1]}
          </Link>
        </p>
      </>
    );
  }
  return (
    <div className={styles.desk}>
      <div className={styles.side}>
        <section className={styles.group} aria-label={text.title}>
          <h2>{text.title}</h2>
          <p className={styles.hint}>{text.hint}</p>
          <Segments
            label={screen.paper}
            value={paper}
            choices={[
              ['a4', screen.papers.a4],
              ['letter', screen.papers.letter],
            ]}
            onChange={setPaper}
          />
          <span className={styles.label} aria-hidden="true">
            {text.perPage}
          </span>
          <Segments
            label={text.perPage}
            value={perPage}
            choices={[
              ['one', text.perPageChoices.one],
              ['four', text.perPageChoices.four],
            ]}
            onChange={setPerPage}
          />
          <span className={styles.label} aria-hidden="true">
            {text.treatments}
          </span>
          <Segments
            label={text.treatments}
            value={treatment}
            choices={[
              ['none', text.treatmentChoices.none],
              ['number', text.treatmentChoices.number],
              ['name', text.treatmentChoices.name],
            ]}
            onChange={setTreatment}
          />
          <p className={styles.hint}>{text.treatmentHint}</p>
          <Button look="main" onClick={() => window.print()}>
            {screen.print}
          </Button>
        </section>
      </div>
      <div className={styles.preview}>
        <SignsPaper plan={trial.plan} paper={paper} perPage={perPage} treatment={treatment} />
      </div>
    </div>
  );
}
