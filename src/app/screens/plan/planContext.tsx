import { createContext, type ReactNode, use, useCallback, useMemo, useState } from 'react';
import { planText } from '../../../core/text/plan.ts';
import { planChangeQueryText } from '../../../core/text/trial.ts';
import { planChangeQueries } from '../../../core/trial/planChangeQueries.ts';
import type { TrialPlan } from '../../../core/trial/trialPlan.ts';
import { Button } from '../../components/Button.tsx';
import { Dialog } from '../../components/Dialog.tsx';
import { FormField } from '../../components/FormField.tsx';
import type { TrialSession } from '../../session/trialSession.ts';
import type { EditPlan, OpenTrial } from '../../session/trialState.ts';
import styles from './PlanScreen.module.css';

interface Plan {
  readonly session: TrialSession;
  readonly trial: OpenTrial;
  readonly plan: TrialPlan;
  readonly who: string;
  /** Stores a change at once; one that touches what was already rated or sprayed asks for a reason first. */
  readonly edit: EditPlan;
}

const PlanContext = createContext<Plan | null>(null);

/** @throws TypeError outside a PlanProvider */
export function usePlan(): Plan {
  const plan = use(PlanContext);
  if (!plan) throw new TypeError('usePlan needs a PlanProvider above it');
  return plan;
}

interface Asked {
  readonly questions: readonly string[];
  readonly answer: (why: string | null) => void;
}

interface PlanProviderProps {
  readonly session: TrialSession;
  readonly trial: OpenTrial;
  readonly who: string;
  readonly children: ReactNode;
}

export function PlanProvider({ session, trial, who, children }: PlanProviderProps) {
  const [asked, setAsked] = useState<Asked | null>(null);
  const { plan } = trial;

  const edit = useCallback<EditPlan>(
    async (change) => {
      const questions = planChangeQueries(plan, change(plan)).map(planChangeQueryText);
      if (questions.length === 0) return session.edit(change, { who, why: planText.signature.why });
      const why = await new Promise<string | null>((answer) =>
        setAsked({ questions: [...new Set(questions)], answer }),
      );
      setAsked(null);
      return why === null ? { ok: false, problems: [] } : session.edit(change, { who, why });
    },
    [plan, session, who],
  );
  const value = useMemo(() => ({ session, trial, plan, who, edit }), [session, trial, plan, who, edit]);
  return (
    <PlanContext value={value}>
      {children}
      {asked && <ReasonDialog {...asked} />}
    </PlanContext>
  );
}

/** Asks whether a change is meant, and why. */
function ReasonDialog({ questions, answer }: Asked) {
  const [why, setWhy] = useState('');
  return (
    <Dialog title={planText.reason.title} onClose={() => answer(null)}>
      <form
        className={styles.form}
        onSubmit={(event) => {
          event.preventDefault();
          if (why.trim() !== '') answer(why.trim());
        }}
      >
        {questions.slice(0, MOST_QUESTIONS).map((question) => (
          <p key={question}>{question}</p>
        ))}
        <FormField label={planText.reason.label} value={why} onChange={setWhy} required />
        <div className={styles.actions}>
          <Button onClick={() => answer(null)}>{planText.cancel}</Button>
          <Button look="main" type="submit" disabled={why.trim() === ''}>
            {planText.reason.keep}
          </Button>
        </div>
      </form>
    </Dialog>
  );
}

const MOST_QUESTIONS = 4;
