import { useRef, useState } from 'react';
import { planText } from '../../../core/text/plan.ts';
import { trialPlanProblemText } from '../../../core/text/trial.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { FormField } from '../../components/FormField.tsx';
import { problemWords } from '../../components/formFields.ts';
import { Notice } from '../../components/Notice.tsx';
import { Page } from '../../components/Page.tsx';
import { emptyPlan, samplePlan } from '../../session/trialPlans.ts';
import type { TrialSession } from '../../session/trialSession.ts';
import styles from './PlanScreen.module.css';

const text = planText.start;

const FIELDS = ['who', 'name', 'site', 'species'] as const;
type Field = (typeof FIELDS)[number];

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
  /** Fields that a pressed button needs. */
  const [needed, setNeeded] = useState<readonly Field[]>([]);
  const picker = useRef<HTMLInputElement>(null);
  const signed = form.who.trim();
  const set = (name: Field) => (value: string) => setForm({ ...form, [name]: value });
  const missing = (names: readonly Field[]) => names.filter((name) => form[name].trim() === '');
  /** Does it, or says at their fields what is needed first. */
  const whenFilled = (names: readonly Field[], act: () => void) => () => {
    setNeeded(names);
    if (missing(names).length === 0) act();
  };
  const problem = (name: Field) => (missing(needed).includes(name) ? text.needed[name] : null);

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
    <Page title={text.title}>
      <p className={blocks.lead}>{text.sentence}</p>
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
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          whenFilled(FIELDS, () => void start())();
        }}
      >
        <FormField
          label={planText.signature.label}
          value={form.who}
          onChange={set('who')}
          hint={planText.signature.hint}
          problem={problem('who')}
          required
        />
        <FormField
          label={text.name}
          value={form.name}
          onChange={set('name')}
          problem={problem('name')}
          required
        />
        <FormField
          label={text.site}
          value={form.site}
          onChange={set('site')}
          problem={problem('site')}
          required
        />
        <FormField
          label={text.species}
          value={form.species}
          onChange={set('species')}
          problem={problem('species')}
          required
        />
        <div className={blocks.row}>
          <Button look="main" type="submit">
            {text.go}
          </Button>
          <Button onClick={whenFilled(['who'], () => void takeSample())}>{text.sample}</Button>
          <Button onClick={whenFilled(['who'], () => picker.current!.click())}>{text.open}</Button>
        </div>
        <p className={blocks.hint}>{text.sampleHint}</p>
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
    </Page>
  );
}
