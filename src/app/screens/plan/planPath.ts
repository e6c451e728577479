import type { TrialPlan } from '../../../core/trial/trialPlan.ts';

/** A way to a field: names, and members of lists by a field that tells them apart. */
export type PlanPath = readonly (string | { readonly by: string; readonly is: string | number })[];

/** The plan with another value in one field; without the member of a list that the path names, the plan as it is. */
export function setAt(plan: TrialPlan, path: PlanPath, value: unknown): TrialPlan {
  return setIn(plan, path, value) as TrialPlan;
}

function setIn(at: unknown, [first, ...rest]: PlanPath, value: unknown): unknown {
  if (first === undefined) return value;
  if (typeof first === 'string') {
    const record = at as Record<string, unknown>;
    return { ...record, [first]: setIn(record[first], rest, value) };
  }
  const { by, is } = first;
  return (at as Record<string, unknown>[]).map((member) =>
    member[by] === is ? setIn(member, rest, value) : member,
  );
}

/** The value of a field; undefined where the path leads nowhere. */
export function valueAt(plan: TrialPlan, path: PlanPath): unknown {
  let at: unknown = plan;
  for (const part of path) {
    if (at === null || at === undefined) return undefined;
    at =
      typeof part === 'string'
        ? (at as Record<string, unknown>)[part]
        : (at as Record<string, unknown>[]).find((member) => member[part.by] === part.is);
  }
  return at;
}
