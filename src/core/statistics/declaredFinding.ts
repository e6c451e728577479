import { applicationsBy } from '../trial/applicationsBy.ts';
import type { TrialPlan } from '../trial/trialPlan.ts';
import type { ClassOverDates, ComparisonOptions, DateComparison } from './compareTrial.ts';
import type { DeclaredAnalysis } from './declaredAnalysis.ts';
import { type Finding, findingOf } from './finding.ts';

/** The comparison of the declared variable, as far as it got. */
export interface DeclaredComparison {
  readonly options: ComparisonOptions;
  /** Rating dates with a value, in order. */
  readonly dates: readonly string[];
  readonly byDate: ReadonlyMap<string, DateComparison>;
  /** Null with one date; undefined until it is there. */
  readonly overDates: ClassOverDates | null | undefined;
}

/** The finding, or why there is none (yet). */
export type FoundOrNot =
  | { readonly ok: true; readonly finding: Finding }
  | { readonly ok: false; readonly why: 'pending' | 'area-needs-dates' }
  | { readonly ok: false; readonly why: 'not-rated'; readonly ratingDate: string };

/** What the declared comparison came to. */
export function declaredFinding(
  plan: Pick<TrialPlan, 'treatments' | 'applications'>,
  { variable, when, minimumPressure }: DeclaredAnalysis,
  { options, dates, byDate, overDates }: DeclaredComparison,
): FoundOrNot {
  const source = { variable, control: options.control ?? null, minimumPressure };
  if (when.kind === 'date') {
    const { ratingDate } = when;
    if (!dates.includes(ratingDate)) return { ok: false, why: 'not-rated', ratingDate };
    const found = byDate.get(ratingDate);
    if (!found) return { ok: false, why: 'pending' };
    const finding = findingOf({
      ...source,
      applications: applicationsBy(plan, ratingDate),
      at: { kind: 'date', ratingDate },
      analysis: found.analysis,
    });
    return { ok: true, finding };
  }
  if (overDates === undefined) return { ok: false, why: 'pending' };
  const area = overDates?.overDates.area;
  if (!area) return { ok: false, why: 'area-needs-dates' };
  const [from, to] = [dates[0]!, dates.at(-1)!];
  const finding = findingOf({
    ...source,
    applications: applicationsBy(plan, to),
    at: { kind: 'area', from, to },
    analysis: area.analysis,
  });
  return { ok: true, finding };
}
