import { useEffect, useState } from 'react';
import { planText } from '../../../core/text/plan.ts';
import { fieldProblemText } from '../../../core/text/trial.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { FieldLink } from '../../components/FieldLink.tsx';
import { FormField } from '../../components/FormField.tsx';
import { Notice } from '../../components/Notice.tsx';
import { Page } from '../../components/Page.tsx';
import { PartNav } from '../../components/PartNav.tsx';
import { saveBlob } from '../../components/saveBlob.ts';
import { usePreference } from '../../components/usePreference.ts';
import type { TrialSession } from '../../session/trialSession.ts';
import { useObservable, useSession } from '../../session/useSession.tsx';
import { ApplicationsPart } from './ApplicationsPart.tsx';
import { CalendarPart } from './CalendarPart.tsx';
import { FramePart } from './FramePart.tsx';
import { LabelsPart } from './LabelsPart.tsx';
import { LayoutPart } from './LayoutPart.tsx';
import { PhotosPart } from './PhotosPart.tsx';
import { PlanRemarks } from './PlanRemarks.tsx';
import styles from './PlanScreen.module.css';
import { PlanProvider } from './planContext.tsx';
import { RecordsPart } from './RecordsPart.tsx';
import { ScoresPart } from './ScoresPart.tsx';
import { StartTrial } from './StartTrial.tsx';
import { TreatmentsPart } from './TreatmentsPart.tsx';
import { TrialPart } from './TrialPart.tsx';

const PARTS = {
  trial: TrialPart,
  treatments: TreatmentsPart,
  applications: ApplicationsPart,
  layout: LayoutPart,
  photos: PhotosPart,
  calendar: CalendarPart,
  scores: ScoresPart,
  frame: FramePart,
  labels: LabelsPart,
  records: RecordsPart,
} as const;
export type PlanPartName = keyof typeof PARTS;
const NAMES = Object.keys(PARTS) as PlanPartName[];

const isText = (value: unknown): value is string => typeof value === 'string';

/** The trial behind the photos: plan, layout, where photos belong, calendar. */
export function PlanScreen({ params: { part } }: { params: { part?: string | undefined } }) {
  const session = useSession();
  const [trial, setTrial] = useState<TrialSession | { readonly failed: string } | null>(null);
  const [tries, setTries] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another try is another opening
  useEffect(() => {
    let current = true;
    session.openTrial().then(
      (opened) => current && setTrial(opened),
      (error) => {
        console.error(error);
        if (current) setTrial({ failed: error instanceof Error ? error.message : String(error) });
      },
    );
    return () => {
      current = false;
    };
  }, [session, tries]);

  if (trial === null) {
    return (
      <p className={blocks.opening} role="status">
        {planText.opening}
      </p>
    );
  }
  if ('failed' in trial) {
    return (
      <Page title={planText.title}>
        <Notice kind="trouble">
          <p>{planText.failed(trial.failed)}</p>
          <Button onClick={() => setTries(tries + 1)}>{planText.retry}</Button>
        </Notice>
      </Page>
    );
  }
  return <OpenedPlan session={trial} part={NAMES.find((name) => name === part) ?? 'trial'} />;
}

function OpenedPlan({ session, part }: { session: TrialSession; part: PlanPartName }) {
  const trial = useObservable(session.trial);
  const [who, setWho] = usePreference('plan.signature', '', isText);
  const [signing, setSigning] = useState(false);
  // what was typed and not yet left is stored before the page goes
  useEffect(() => {
    const leave = () => {
      if (document.visibilityState === 'hidden') (document.activeElement as HTMLElement | null)?.blur();
    };
    document.addEventListener('visibilitychange', leave);
    return () => document.removeEventListener('visibilitychange', leave);
  }, []);

  if (trial.state === 'none') return <StartTrial session={session} who={who} onWho={setWho} />;
  if (trial.state === 'unreadable') {
    return (
      <Page title={planText.unreadable.title}>
        <Notice kind="trouble">
          <ul>
            {trial.problems.map((problem) => (
              <li key={problem.field}>{fieldProblemText(problem)}</li>
            ))}
          </ul>
        </Notice>
        <p>{planText.unreadable.sentence}</p>
        <Button
          className={blocks.fit}
          onClick={() => saveBlob(new Blob([trial.stored], { type: 'application/json' }), 'trial-plan.json')}
        >
          {planText.unreadable.save}
        </Button>
      </Page>
    );
  }
  if (who === '' || signing) {
    return (
      <Sign
        who={who}
        onWho={(name) => {
          setWho(name);
          setSigning(false);
        }}
      />
    );
  }
  const Part = PARTS[part];
  return (
    <PlanProvider session={session} trial={trial} who={who}>
      <Page
        title={trial.plan.trial.name}
        aside={
          <p>
            {planText.signature.signedBy(who)}{' '}
            <Button look="quiet" onClick={() => setSigning(true)}>
              {planText.signature.other}
            </Button>
          </p>
        }
        action={<FieldLink key={String(trial.plan.plots.length > 0)} />}
      >
        <PartNav
          label={planText.parts}
          parts={NAMES.map((name) => ({
            href: `/plan/${name}`,
            words: planText.part[name],
            current: name === part,
          }))}
        />
        <PlanRemarks />
        <Part key={trial.id} />
      </Page>
    </PlanProvider>
  );
}

function Sign({ who, onWho }: { who: string; onWho: (who: string) => void }) {
  const [name, setName] = useState(who);
  return (
    <Page title={planText.signature.title}>
      <form
        className={`${styles.form} ${styles.slim}`}
        onSubmit={(event) => {
          event.preventDefault();
          if (name.trim() !== '') onWho(name.trim());
        }}
      >
        <FormField
          label={planText.signature.label}
          value={name}
          onChange={setName}
          hint={planText.signature.hint}
          required
        />
        <Button look="main" type="submit" className={blocks.fit} disabled={name.trim() === ''}>
          {planText.signature.go}
        </Button>
      </form>
    </Page>
  );
}
