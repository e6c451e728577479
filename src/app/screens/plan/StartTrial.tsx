import { useRef, useState } from 'react';
import { planText } from '../../../core/text/plan.ts';
import { trialPlanProblemText } from '../../../core/text/trial.ts';
import { Button } from '../../components/Button.tsx';
import { Notice } from '../../components/Notice.tsx';
import { emptyPlan, samplePlan } from '../../session/trialPlans.ts';
import type { TrialSession } from '../../session/trialSession.ts';
import { FormField } from './FormField.tsx';
import styles from './PlanScreen.module.css';
import { problemWords } from './planPath.ts';

const text = planText.start;

interface StartTrialProps {
  readonly session: TrialSession;
  readonly who: string;
  readonly onWho: (who: string) => void;
}

/** No trial yet: start one, take the sample, or open a plan file. */
export function StartTrial({ session, who, onWho }: StartTrialProps) {
  const [form, setForm] = useState({ who, name: '', site: '', species: '' });
  const [problems, setProblems] = useState<readonly string[]>([]);
  const [title, setTitle] = useState<string | null>(null);
  const picker = useRef<HTMLInputElement>(null);
  const signed = form.who.trim();
  const set = (name: keyof typeof form) => (value: string) => setForm({ ...form, [name]: value });

  const start = async () => {
    const plan = emptyPlan(form.name.trim(), form.site.trim(), form.species.trim(), Math.random);
    onWho(signed);
    const result = await session.create(plan, signed);
    setTitle(null);
    if (!result.ok) {
      setProblems(result.problems.map((problem) => problemWords(problem.field, [problem])!));
    }
  };
  const takeSample = async () => {
    onWho(signed);
    await session.create(await samplePlan(text.sampleName, Math.random), signed);
  };
  const open = async (file: File) => {
    onWho(signed);
    const result = await session.createFromFile(await file.text(), signed);
    setTitle(text.openProblems(file.name));
    if (!result.ok) setProblems(result.problems.map(trialPlanProblemText));
  };

  return (
    <div className={styles.screen}>
      <h1>{text.title}</h1>
      <p className={styles.lead}>{text.sentence}</p>
      {problems.length > 0 && (
        <Notice kind="trouble">
          <div>
            {title && <p>{title}</p>}
            <ul>
              {problems.map((problem) => (
                <li key={problem}>{problem}</li>
              ))}
            </ul>
          </div>
        </Notice>
      )}
      <form
        className={`${styles.form} ${styles.slim}`}
        onSubmit={(event) => {
          event.preventDefault();
          void start();
        }}
      >
        <FormField
          label={planText.signature.label}
          value={form.who}
          onChange={set('who')}
          hint={planText.signature.hint}
          required
        />
        <FormField label={text.name} value={form.name} onChange={set('name')} required />
        <FormField label={text.site} value={form.site} onChange={set('site')} required />
        <FormField label={text.species} value={form.species} onChange={set('species')} required />
        <div className={styles.row}>
          <Button
            look="main"
            type="submit"
            disabled={Object.values(form).some((value) => value.trim() === '')}
          >
            {text.go}
          </Button>
          <Button disabled={signed === ''} onClick={() => void takeSample()}>
            {text.sample}
          </Button>
          <Button disabled={signed === ''} onClick={() => picker.current!.click()}>
            {text.open}
          </Button>
        </div>
        <p className={styles.hint}>{text.sampleHint}</p>
      </form>
      <input
        ref={picker}
        type="file"
        hidden
        accept=".json,application/json"
        aria-label={text.open}
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = '';
          if (file) void open(file);
        }}
      />
    </div>
  );
}
