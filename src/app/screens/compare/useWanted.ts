import { useEffect } from 'react';
import { type ComparedVariable, variableKey } from '../../../core/statistics/declaredAnalysis.ts';
import type { PlotsCompared } from '../../session/comparison.ts';
import type { ComparedTrial } from './comparedTrial.ts';

/** Has variables worked out for as long as the caller is on screen. */
export function useWanted(
  { part }: ComparedTrial,
  variables: readonly ComparedVariable[],
  plots: PlotsCompared = 'as-declared',
): void {
  const keys = variables.map(variableKey).join('\n');
  // biome-ignore lint/correctness/useExhaustiveDependencies: the same variables are a new list at every render
  useEffect(() => part.want(variables.map((variable) => ({ variable, plots }))), [part, keys, plots]);
}
