import type { CoverMethod } from '../exchange/coverTable.ts';
import { type CoverClass, turfClass } from '../trial/coverClass.ts';
import { type Exclusion, exclusionOf } from '../trial/deviation.ts';
import type { RatedVariable } from '../trial/rating.ts';
import type { GapRule } from '../trial/trial.ts';
import type { TrialPlan } from '../trial/trialPlan.ts';
import type { Transform } from './transforms.ts';

/** What is compared. */
export type ComparedVariable =
  | { readonly kind: 'class'; readonly classId: string }
  /** All classes of a reporting group, added up. */
  | { readonly kind: 'group'; readonly reportingGroup: string }
  | { readonly kind: 'rated'; readonly variableId: string }
  /** Dark green colour index of the turf class; compared on single dates only. */
  | { readonly kind: 'colour' };

/** What decides: one rating date, or the whole curve. */
export type DecidingTime = { readonly kind: 'date'; readonly ratingDate: string } | { readonly kind: 'area' };

/**
 * What a comparison will look at, fixed before treatments show. What the plan said then (classes, gap rule, exclusions) is kept
 * with it, so that a later change of the plan shows.
 */
export interface DeclaredAnalysis {
  readonly variable: ComparedVariable;
  /** How the figures of all plots were made; null for a rated variable. */
  readonly method: CoverMethod | null;
  readonly when: DecidingTime;
  readonly transform: Transform;
  readonly alpha: number;
  /** Value above which control counts as lost; null: length of control is not asked for. */
  readonly controlThreshold: number | null;
  /** Mean of the untreated control below which the pressure is too low to judge by. */
  readonly minimumPressure: number;
  readonly classes: readonly CoverClass[];
  readonly gapRule: GapRule;
  readonly exclusions: readonly Exclusion[];
}

/** What of the plan is no longer as it was declared. */
export type DeclarationDrift = 'classes' | 'gap-rule' | 'exclusions' | 'variable-gone';

/** Compares a declaration with the plan as it stands. */
export function declarationDrift(declared: DeclaredAnalysis, plan: TrialPlan): DeclarationDrift[] {
  const { classes, gapRule } = plan.trial;
  const found: DeclarationDrift[] = [];
  const asDefined = (list: readonly CoverClass[]) =>
    JSON.stringify(list.map(({ id, reportingGroup }) => [id, reportingGroup]));
  if (asDefined(declared.classes) !== asDefined(classes)) found.push('classes');
  if (JSON.stringify(sorted(declared.gapRule)) !== JSON.stringify(sorted(gapRule))) found.push('gap-rule');
  const asExcluded = (list: readonly Exclusion[]) =>
    JSON.stringify(
      list.map(({ plot, ratingDate, variable }) => [plot.toUpperCase(), ratingDate, variable].join()).sort(),
    );
  if (asExcluded(declared.exclusions) !== asExcluded(plan.exclusions)) found.push('exclusions');
  if (!comparedVariables(plan).some((variable) => variableKey(variable) === variableKey(declared.variable))) {
    found.push('variable-gone');
  }
  return found;
}

const sorted = (record: object) => Object.entries(record).sort(([a], [b]) => (a < b ? -1 : 1));

/** All that a trial can compare: its classes, reporting groups of several classes, rated variables, colour. */
export function comparedVariables({
  trial,
  ratedVariables,
}: Pick<TrialPlan, 'trial' | 'ratedVariables'>): ComparedVariable[] {
  const { classes } = trial;
  const groups = [...new Set(classes.map(({ reportingGroup }) => reportingGroup))].filter(
    (group) => classes.filter(({ reportingGroup }) => reportingGroup === group).length > 1,
  );
  return [
    ...classes.map(({ id }) => ({ kind: 'class', classId: id }) as const),
    ...groups.map((reportingGroup) => ({ kind: 'group', reportingGroup }) as const),
    ...ratedVariables.map(({ id }) => ({ kind: 'rated', variableId: id }) as const),
    ...(turfClass(classes) ? [{ kind: 'colour' } as const] : []),
  ];
}

/** A name for a variable that no other one of the trial has. */
export function variableKey(variable: ComparedVariable): string {
  switch (variable.kind) {
    case 'class':
      return `class ${variable.classId}`;
    case 'group':
      return `group ${variable.reportingGroup}`;
    case 'rated':
      return `rated ${variable.variableId}`;
    case 'colour':
      return 'colour';
  }
}

/** What observations, tables and exclusions call the variable. */
export function variableId(variable: ComparedVariable): string {
  switch (variable.kind) {
    case 'class':
      return variable.classId;
    case 'group':
      return variable.reportingGroup;
    case 'rated':
      return variable.variableId;
    case 'colour':
      return DARK_GREEN_COLOUR_INDEX;
  }
}

/** The name of the colour index in tables. */
export const DARK_GREEN_COLOUR_INDEX = 'dark-green-colour-index';

/** Which way is better; null where nobody said. The turf itself is better higher, other grass and ground lower. */
export function betterOf(
  variable: ComparedVariable,
  classes: readonly CoverClass[],
  ratedVariables: readonly RatedVariable[],
): 'higher' | 'lower' | null {
  if (variable.kind === 'colour') return null;
  if (variable.kind === 'rated') {
    const better = ratedVariables.find(({ id }) => id === variable.variableId)?.better;
    return better === undefined || better === 'neither' ? null : better;
  }
  const directions = new Set(
    classesOf(variable, classes).map(({ startRole }) =>
      startRole === null ? null : startRole === 'dark-grass' ? 'higher' : 'lower',
    ),
  );
  return directions.size === 1 ? [...directions][0]! : null;
}

/** The classes that make up a variable of cover. */
export function classesOf(
  variable: Extract<ComparedVariable, { kind: 'class' | 'group' }>,
  classes: readonly CoverClass[],
): readonly CoverClass[] {
  return classes.filter(({ id, reportingGroup }) =>
    variable.kind === 'class' ? id === variable.classId : reportingGroup === variable.reportingGroup,
  );
}

/** The exclusion that keeps a plot's value out; an exclusion of one class of a group excludes the group. */
export function exclusionFrom(
  variable: ComparedVariable,
  at: { readonly plot: string; readonly ratingDate: string },
  { classes, exclusions }: Pick<DeclaredAnalysis, 'classes' | 'exclusions'>,
): Exclusion | null {
  const names = [
    variableId(variable),
    ...(variable.kind === 'group' ? classesOf(variable, classes).map(({ id }) => id) : []),
  ];
  for (const name of names) {
    const found = exclusionOf({ ...at, variable: name }, exclusions);
    if (found) return found;
  }
  return null;
}
