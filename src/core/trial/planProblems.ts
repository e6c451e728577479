import { type LayoutProblem, layoutProblems } from './layoutProblems.ts';
import { plotKey } from './plot.ts';
import { type RateQuery, rateQueries } from './rateQueries.ts';
import { resolveTimings } from './resolveTimings.ts';
import { randomisedTreatments } from './treatment.ts';
import type { TrialPlan } from './trialPlan.ts';

/** Something that makes a plan contradict itself: it has to be put right before the plan can be used. */
export type PlanProblem =
  | LayoutProblem
  | { readonly code: 'treatment-number-twice'; readonly treatment: number }
  | { readonly code: 'several-untreated-controls'; readonly treatments: readonly number[] }
  | { readonly code: 'id-twice'; readonly list: IdList; readonly id: string }
  | {
      readonly code: 'application-of-unknown-treatment';
      readonly application: string;
      readonly treatment: number;
    }
  | {
      readonly code: 'timing-after-unknown-application';
      readonly of: string;
      readonly application: string;
    }
  | { readonly code: 'timing-ring'; readonly applications: readonly string[] }
  | {
      readonly code: 'sowing-after-first-rating';
      readonly sowingDate: string;
      readonly firstRating: string;
      readonly rating: string;
    }
  | { readonly code: 'rating-date-twice'; readonly date: string; readonly ratings: readonly [string, string] }
  | { readonly code: 'exclusion-of-unknown-plot'; readonly exclusion: string; readonly plot: string };

type IdList = 'applications' | 'ratings' | 'ratedVariables' | 'deviations' | 'exclusions';

/** Something to ask the user about; it may well be meant. */
export type PlanQuery =
  | RateQuery
  | { readonly code: 'no-untreated-control' }
  | { readonly code: 'application-on-control'; readonly application: string; readonly treatment: number }
  | { readonly code: 'name-twice'; readonly name: string; readonly treatments: readonly number[] };

const ID_LISTS: readonly IdList[] = ['applications', 'ratings', 'ratedVariables', 'deviations', 'exclusions'];

/** Whether the records of a plan go together. Each record for itself is checked by its schema. */
export function planProblems(plan: TrialPlan): PlanProblem[] {
  const { treatments, applications, plots } = plan;
  const problems: PlanProblem[] = [];
  const numbers = treatments.map(({ number }) => number);
  for (const treatment of repeated(numbers)) problems.push({ code: 'treatment-number-twice', treatment });
  const controls = treatments.filter(({ untreatedControl }) => untreatedControl !== null);
  if (controls.length > 1) {
    problems.push({
      code: 'several-untreated-controls',
      treatments: controls.map(({ number }) => number),
    });
  }
  for (const list of ID_LISTS) {
    for (const id of repeated(plan[list].map((record) => record.id))) {
      problems.push({ code: 'id-twice', list, id });
    }
  }
  for (const { id, treatments: treated } of applications) {
    for (const treatment of treated.filter((number) => !numbers.includes(number))) {
      problems.push({ code: 'application-of-unknown-treatment', application: id, treatment });
    }
  }
  problems.push(...timingProblems(plan));
  if (plots.length > 0) {
    const randomised = randomisedTreatments(treatments).map(({ number }) => number);
    const adjacent = numbers.filter((number) => !randomised.includes(number));
    problems.push(...layoutProblems(plots, randomised, plan.layout?.design ?? 'own', adjacent));
  }
  const known = new Set(plots.map(({ plot }) => plotKey(plot)));
  for (const { id, plot } of plan.exclusions) {
    if (!known.has(plotKey(plot))) problems.push({ code: 'exclusion-of-unknown-plot', exclusion: id, plot });
  }
  return problems;
}

function timingProblems(plan: TrialPlan): PlanProblem[] {
  const problems: PlanProblem[] = [];
  const timings = resolveTimings(plan);
  const rings = new Map<string, readonly string[]>();
  for (const [of, resolved] of [...timings.applications, ...timings.ratings]) {
    if (resolved.state !== 'waiting') continue;
    if (resolved.for.code === 'ring') {
      rings.set([...resolved.for.applications].sort().join('\n'), resolved.for.applications);
    }
    if (resolved.for.code === 'unknown-application') {
      const { application } = resolved.for;
      problems.push({ code: 'timing-after-unknown-application', of, application });
    }
  }
  for (const applications of rings.values()) problems.push({ code: 'timing-ring', applications });

  const days = [...timings.ratings].flatMap(([rating, resolved]) =>
    'day' in resolved ? [{ rating, day: resolved.day }] : [],
  );
  days.sort((a, b) => a.day.localeCompare(b.day));
  const sowingDate = plan.trial.sowing.date;
  const first = days[0];
  if (sowingDate !== null && first && sowingDate > first.day) {
    const { rating, day: firstRating } = first;
    problems.push({ code: 'sowing-after-first-rating', sowingDate, firstRating, rating });
  }
  days.forEach(({ rating, day }, index) => {
    const before = days[index - 1];
    if (before?.day === day) {
      problems.push({ code: 'rating-date-twice', date: day, ratings: [before.rating, rating] });
    }
  });
  return problems;
}

/** What to ask about a plan that may be right as it stands. */
export function planQueries(plan: TrialPlan): PlanQuery[] {
  const queries: PlanQuery[] = [...rateQueries(plan.applications)];
  const controls = plan.treatments.filter(({ untreatedControl }) => untreatedControl !== null);
  if (plan.treatments.length > 0 && controls.length === 0) queries.push({ code: 'no-untreated-control' });
  for (const { number } of controls) {
    for (const { id, treatments, products } of plan.applications) {
      if (products.length > 0 && treatments.includes(number)) {
        queries.push({ code: 'application-on-control', application: id, treatment: number });
      }
    }
  }
  for (const name of repeated(plan.treatments.map((treatment) => treatment.name.toLowerCase()))) {
    const alike = plan.treatments.filter((treatment) => treatment.name.toLowerCase() === name);
    queries.push({
      code: 'name-twice',
      name: alike[0]!.name,
      treatments: alike.map(({ number }) => number),
    });
  }
  return queries;
}

function repeated<T>(items: readonly T[]): T[] {
  return [...new Set(items.filter((item, index) => items.indexOf(item) !== index))];
}
