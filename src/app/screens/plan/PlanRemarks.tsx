import { useMemo } from 'react';
import { planText } from '../../../core/text/plan.ts';
import { planProblemText, planQueryText } from '../../../core/text/trial.ts';
import { planProblems, planQueries } from '../../../core/trial/planProblems.ts';
import { Notice } from '../../components/Notice.tsx';
import styles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';

const SHOWN = 6;

/** What contradicts in the plan, and what is asked about it. */
export function PlanRemarks() {
  const { plan } = usePlan();
  const problems = useMemo(() => unique(planProblems(plan).map(planProblemText)), [plan]);
  const queries = useMemo(() => unique(planQueries(plan).map(planQueryText)), [plan]);
  const hasTreatments = plan.treatments.length > 0;
  return (
    <>
      {problems.length > 0 && (
        <Notice kind="trouble">
          <Sentences head={planText.problems(problems.length)} sentences={problems} />
        </Notice>
      )}
      {hasTreatments && queries.length > 0 && (
        <Notice>
          <Sentences head={planText.queries(queries.length)} sentences={queries} />
        </Notice>
      )}
    </>
  );
}

function Sentences({ head, sentences }: { head: string; sentences: readonly string[] }) {
  const [first, rest] = [sentences.slice(0, SHOWN), sentences.slice(SHOWN)];
  return (
    <div className={styles.sentences}>
      <p>{head}</p>
      <ul>
        {first.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
      {rest.length > 0 && (
        <details>
          <summary>{planText.more(rest.length)}</summary>
          <ul>
            {rest.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}

const unique = (sentences: readonly string[]) => [...new Set(sentences)];
