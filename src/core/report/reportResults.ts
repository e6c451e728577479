import type { ClassOverDates, DateComparison } from '../statistics/compareTrial.ts';
import {
  betterOf,
  type ComparedVariable,
  type DeclaredAnalysis,
  variableKey,
} from '../statistics/declaredAnalysis.ts';
import type { TrialObservations } from '../statistics/trialObservations.ts';
import type { RatedVariable } from '../trial/rating.ts';
import type { TrialPlan } from '../trial/trialPlan.ts';
import type { ReportComparison } from './reportSource.ts';

/** One variable on one rating date. */
export interface DateResult {
  readonly ratingDate: string;
  readonly comparison: DateComparison;
  /** Plots of the plan without a value. */
  readonly missingPlots: readonly string[];
  /** The untreated control beside the trial; null where there is none. */
  readonly adjacent: { readonly plots: number; readonly mean: number } | null;
}

/** One variable with its rating dates. */
export interface VariableResult {
  readonly variable: ComparedVariable;
  readonly isDeclared: boolean;
  readonly better: 'higher' | 'lower' | null;
  readonly control: string | null;
  readonly dates: readonly DateResult[];
  /** Of all dates; null with fewer than two of them, and in a copy that shows only some. */
  readonly overDates: ClassOverDates | null;
  readonly observations: TrialObservations;
}

/** The results of all variables that have values; what is not worked out yet is not among them. */
export function variableResults(
  plan: Pick<TrialPlan, 'plots'> & { readonly ratedVariables: readonly RatedVariable[] },
  declared: DeclaredAnalysis,
  comparisons: readonly ReportComparison[],
  ratingDates: readonly string[] | null,
): VariableResult[] {
  return comparisons.flatMap((compared): VariableResult[] => {
    const { variable, options, dates, byDate, overDates, observations } = compared;
    const shown = dates.filter((date) => ratingDates === null || ratingDates.includes(date));
    const results = shown.flatMap((ratingDate) => {
      const comparison = byDate.get(ratingDate);
      return comparison ? [dateResult(plan.plots, ratingDate, comparison, observations)] : [];
    });
    if (results.length === 0) return [];
    return [
      {
        variable,
        isDeclared: variableKey(variable) === variableKey(declared.variable),
        better: betterOf(variable, declared.classes, plan.ratedVariables),
        control: options.control ?? null,
        dates: results,
        overDates: shown.length === dates.length ? (overDates ?? null) : null,
        observations,
      },
    ];
  });
}

function dateResult(
  plots: TrialPlan['plots'],
  ratingDate: string,
  comparison: DateComparison,
  { observations, adjacent }: TrialObservations,
): DateResult {
  const onDate = (list: typeof observations) => list.filter((one) => one.ratingDate === ratingDate);
  const beside = onDate(adjacent);
  const there = new Set([...onDate(observations), ...beside].map(({ plot }) => plot));
  return {
    ratingDate,
    comparison,
    missingPlots: plots.map(({ plot }) => plot).filter((plot) => !there.has(plot)),
    adjacent:
      beside.length === 0
        ? null
        : {
            plots: beside.length,
            mean: beside.reduce((sum, { value }) => sum + value, 0) / beside.length,
          },
  };
}
