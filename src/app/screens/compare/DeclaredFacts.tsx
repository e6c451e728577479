import type { DeclaredAnalysis } from '../../../core/statistics/declaredAnalysis.ts';
import { compareText, variableWords } from '../../../core/text/compare.ts';
import type { TrialPlan } from '../../../core/trial/trialPlan.ts';
import styles from './CompareScreen.module.css';

interface DeclaredFactsProps {
  readonly plan: TrialPlan;
  readonly declared: DeclaredAnalysis;
  /** Only so many of the last lines. @default all */
  readonly only?: number;
}

/** A declaration line by line. */
export function DeclaredFacts({ plan, declared, only }: DeclaredFactsProps) {
  const words = variableWords(declared.variable, declared.classes, plan.ratedVariables);
  const lines = compareText.declared.lines(declared, words);
  return (
    <dl className={styles.facts}>
      {(only === undefined ? lines : lines.slice(-only)).flatMap(([term, value]) => [
        <dt key={`${term} term`}>{term}</dt>,
        <dd key={term}>{value}</dd>,
      ])}
    </dl>
  );
}
