import type { Application } from '../trial/application.ts';
import type { Checked } from '../trial/fieldProblem.ts';
import { type PlanProblem, planProblems } from '../trial/planProblems.ts';
import type { Treatment } from '../trial/treatment.ts';
import type { TrialPlan } from '../trial/trialPlan.ts';
import { type PlotTableProblem, readPlotTable } from './plotTable.ts';
import { readApplicationTable, readRatingTable, readTreatmentTable } from './trialTables.ts';
import type { TableProblem } from './trialTablesCells.ts';

/** CSV texts that fill parts of a plan; absent ones leave their part as it is. */
export interface TrialPlanTables {
  readonly treatments?: string;
  readonly plots?: string;
  readonly applications?: string;
  readonly ratings?: string;
}

export type ImportProblem =
  | { readonly table: keyof TrialPlanTables; readonly problem: TableProblem | PlotTableProblem }
  /** The tables can be read, but do not go together with each other or with the plan. */
  | { readonly table: null; readonly problem: PlanProblem };

/**
 * Puts tables into a plan: each replaces its part. All or nothing: with any problem the plan stays as it was.
 *
 * Treatments that only the table of plots knows are added, under the name it gives them or their number.
 */
export function importTables(plan: TrialPlan, tables: TrialPlanTables): Checked<TrialPlan, ImportProblem> {
  const problems: ImportProblem[] = [];
  function take<Value>(
    table: keyof TrialPlanTables,
    read: (text: string) => Checked<Value, TableProblem | PlotTableProblem>,
  ): Value | null {
    const text = tables[table];
    if (text === undefined) return null;
    const result = read(text);
    if (result.ok) return result.value;
    problems.push(...result.problems.map((problem) => ({ table, problem })));
    return null;
  }

  const treatmentTable = take('treatments', readTreatmentTable);
  const treatments = treatmentTable?.records ?? plan.treatments;
  const adjacent = treatments
    .filter(({ untreatedControl }) => untreatedControl === 'adjacent')
    .map(({ number }) => number);
  const design = plan.layout?.design;
  const plotTable = take('plots', (text) =>
    readPlotTable(text, design ? { design, adjacent } : { adjacent }),
  );
  const applications = take('applications', readApplicationTable);
  const ratings = take('ratings', readRatingTable);
  if (problems.length > 0) return { ok: false, problems };

  const known = new Set(treatments.map(({ number }) => number));
  const added = (plotTable?.treatments ?? [])
    .filter(({ number }) => !known.has(number))
    .map(
      ({ number, name }): Treatment => ({
        number,
        name: name ?? String(number),
        untreatedControl: null,
        levels: {},
        notes: '',
      }),
    );
  const filled: TrialPlan = {
    ...plan,
    treatments: [...treatments, ...added],
    plots: [...(plotTable?.plots ?? plan.plots)],
    applications: applications?.records.map((read) => withUntabled(read, plan)) ?? plan.applications,
    ratings:
      ratings?.records.map((read) => ({
        ...read,
        conditions: plan.ratings.find(({ id }) => id === read.id)?.conditions ?? null,
      })) ?? plan.ratings,
  };
  const contradictions = planProblems(filled);
  if (contradictions.length > 0) {
    return { ok: false, problems: contradictions.map((problem) => ({ table: null, problem })) };
  }
  return { ok: true, value: filled };
}

/** What the table of applications has no columns for stays as it is in the plan, for the same application and product. */
function withUntabled(read: Application, plan: TrialPlan): Application {
  const before = plan.applications.find(({ id }) => id === read.id);
  if (!before) return read;
  const products = read.products.map((product) => {
    const same = before.products.find(({ name }) => name === product.name);
    const contentOf = (ingredient: string) =>
      same?.activeIngredients.find(({ name }) => name === ingredient)?.content ?? null;
    return {
      ...product,
      activeIngredients: product.activeIngredients.map((one) => ({ ...one, content: contentOf(one.name) })),
    };
  });
  const { progress } = read;
  const sameDay =
    progress.state === 'done' && before.progress.state === 'done' && before.progress.date === progress.date;
  const weather = sameDay && before.progress.state === 'done' ? before.progress.weather : null;
  return {
    ...read,
    products,
    temperatureWindow: before.temperatureWindow,
    progress: progress.state === 'done' ? { ...progress, weather } : progress,
  };
}
