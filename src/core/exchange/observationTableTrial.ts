import { z } from 'zod';
import { TRIAL_DESIGNS, type TrialDesign } from '../statistics/plotObservation.ts';
import { isCalendarDay } from '../trial/calendarDay.ts';
import { plotKey } from '../trial/plot.ts';
import type { TrialPlot } from './observationTablePlots.ts';

/** What a comparison takes from a trial file; null or empty where the file does not say. */
export interface ComparisonTrial {
  readonly design: TrialDesign | null;
  readonly control: string | null;
  /** Treatments beside the trial, outside its randomisation: their plots take no part in an analysis. */
  readonly beside: ReadonlySet<string>;
  readonly sowingDate: string | null;
  /** Earliest application to any plot. */
  readonly firstApplication: string | null;
  readonly classes: readonly string[] | null;
  /** By `plotKey` of the plot's name. */
  readonly plots: ReadonlyMap<string, TrialPlot> | null;
}

export type ComparisonTrialReading =
  | { readonly ok: true; readonly trial: ComparisonTrial }
  | { readonly ok: false; readonly field: string; readonly detail: string };

const name = z.union([z.string().trim().min(1), z.number()]).transform(String);
const place = name.nullish().transform((value) => value ?? null);
const day = z.string().refine(isCalendarDay, 'a day of the calendar as YYYY-MM-DD');

const trialFile = z.looseObject({
  design: z.enum(TRIAL_DESIGNS).nullish(),
  untreatedControl: name.nullish(),
  sowingDate: day.nullish(),
  classes: z.array(z.union([name, z.looseObject({ id: name }).transform(({ id }) => id)])).nullish(),
  applications: z.array(z.looseObject({ date: day })).nullish(),
  plots: z
    .array(z.looseObject({ plot: name, treatment: name, block: place, row: place, column: place }))
    .nullish(),
});

/**
 * Reads what a comparison needs from a trial file: plots with treatment, block and place, untreated control, classes, dates.
 * Fields it does not need are left aside.
 */
export function readComparisonTrial(text: string): ComparisonTrialReading {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    return { ok: false, field: '', detail: error instanceof Error ? error.message : String(error) };
  }
  const parsed = trialFile.safeParse(json);
  if (!parsed.success) {
    const issue = parsed.error.issues[0]!;
    return { ok: false, field: issue.path.join('.'), detail: issue.message };
  }
  const { design, untreatedControl, sowingDate, classes, applications, plots } = parsed.data;
  const byName = plots ? new Map<string, TrialPlot>() : null;
  for (const [index, { plot, treatment, block, row, column }] of (plots ?? []).entries()) {
    if (byName!.has(plotKey(plot)))
      return { ok: false, field: `plots.${index}.plot`, detail: `"${plot}" is there twice` };
    byName!.set(plotKey(plot), { treatment, block, row, column });
  }
  return {
    ok: true,
    trial: {
      design: design ?? null,
      control: untreatedControl ?? null,
      beside: new Set(),
      sowingDate: sowingDate ?? null,
      firstApplication: (applications ?? []).map(({ date }) => date).sort()[0] ?? null,
      classes: classes ?? null,
      plots: byName,
    },
  };
}
