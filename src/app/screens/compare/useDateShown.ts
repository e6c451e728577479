import { useState } from 'react';
import type { ComparedVariable } from '../../../core/statistics/declaredAnalysis.ts';
import { variableKey } from '../../../core/statistics/declaredAnalysis.ts';
import { type ComparedTrial, comparisonOf, variablesOf } from './comparedTrial.ts';

/** Which variable and date the parts show; kept while going from part to part. */
export interface Shown {
  /** Null for the declared one. */
  readonly variable: string | null;
  /** Null for the deciding date, or the last one. */
  readonly date: string | null;
  readonly setVariable: (key: string) => void;
  readonly setDate: (date: string) => void;
}

export function useDateShown(): Shown {
  const [variable, setVariable] = useState<string | null>(null);
  const [date, setDate] = useState<string | null>(null);
  return { variable, date, setVariable, setDate };
}

/** The variable shown: the declared one where the chosen one is not there any more. */
export function shownVariable(compared: ComparedTrial, { variable }: Shown): ComparedVariable {
  const all = variablesOf(compared);
  return all.find((one) => variableKey(one) === variable) ?? compared.declared.variable;
}

/** The date shown; null where there is none yet. */
export function shownDate(
  compared: ComparedTrial,
  variable: ComparedVariable,
  { date }: Shown,
): string | null {
  const dates = comparisonOf(compared, variable)?.dates ?? [];
  if (date !== null && dates.includes(date)) return date;
  const { when } = compared.declared;
  if (when.kind === 'date' && dates.includes(when.ratingDate)) return when.ratingDate;
  return dates.at(-1) ?? null;
}
