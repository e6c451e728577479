import { readFile } from 'node:fs/promises';
import { type Command, Option } from 'commander';
import { writeComparison } from '../core/exchange/comparison.ts';
import {
  type ObservationTable,
  readObservationTable,
  tableNotes,
} from '../core/exchange/observationTable.ts';
import { type ComparisonTrial, readComparisonTrial } from '../core/exchange/observationTableTrial.ts';
import { readTrialPlan } from '../core/exchange/trialPlan.ts';
import { comparisonTrialOf } from '../core/exchange/trialPlanComparison.ts';
import { groundFactors } from '../core/statistics/analysisModel.ts';
import {
  baselineProblem,
  type ComparisonOptions,
  compareTrial,
  designOf,
  PRIMARY_AREA,
} from '../core/statistics/compareTrial.ts';
import { contrastProblem, type PlannedContrast } from '../core/statistics/contrasts.ts';
import { type Note, note } from '../core/statistics/note.ts';
import { PERCENT_CONTROL_BASES, type PercentControlBasis } from '../core/statistics/percentControlTable.ts';
import { compareNames, TRIAL_DESIGNS, type TrialDesign } from '../core/statistics/plotObservation.ts';
import { TRANSFORMS, type Transform } from '../core/statistics/transforms.ts';
import { noteText, observationProblemText } from '../core/text/statistics.ts';
import { RESULTS_CAUTION, compareWords as words } from '../core/text/statisticsCommands.ts';
import { trialPlanProblemText } from '../core/text/trial.ts';
import { isCalendarDay } from '../core/trial/calendarDay.ts';
import { comparisonTable } from './comparisonTable.ts';
import { reasonOf, UsageError } from './usageError.ts';
import { writeWhole } from './wholeFile.ts';

interface CompareArguments {
  readonly trial?: string;
  readonly class?: string;
  readonly control?: string;
  readonly design?: TrialDesign;
  readonly transform: Transform;
  readonly alpha: string;
  readonly json?: string;
  readonly method?: string;
  readonly value: string;
  readonly unit?: string;
  readonly scale?: string;
  readonly better?: 'higher' | 'lower';
  readonly primary?: string;
  readonly factors?: string;
  readonly contrast: readonly string[];
  readonly percentControl: PercentControlBasis;
  readonly interval: 'fieller' | 'delta';
  readonly minimumPressure: string;
  readonly baseline?: string;
  readonly covariate?: string;
  readonly firstApplication?: string;
  readonly controlThreshold?: string;
  readonly countFrom?: string;
}

const NO_TRIAL: ComparisonTrial = {
  design: null,
  control: null,
  beside: new Set(),
  sowingDate: null,
  firstApplication: null,
  classes: null,
  plots: null,
};

/** Adds `compare` to the program. */
export function addCompareCommand(program: Command): void {
  const collect = (value: string, before: readonly string[]): readonly string[] => [...before, value];
  program
    .command('compare')
    .summary(words.summary)
    .description(words.description)
    .argument('<table>', words.table)
    .option('--trial <file>', words.trial)
    .option('--class <id>', words.class)
    .option('--control <treatment>', words.control)
    .addOption(new Option('--design <design>', words.design).choices(TRIAL_DESIGNS))
    .addOption(new Option('--transform <transform>', words.transform).choices(TRANSFORMS).default('none'))
    .option('--alpha <number>', words.alpha, '0.05')
    .option('--json <file>', words.json)
    .option('--method <method>', words.method)
    .option('--value <column>', words.value, 'cover_percent')
    .option('--unit <unit>', words.unit)
    .option('--scale <least..most>', words.scale)
    .addOption(new Option('--better <direction>', words.better).choices(['higher', 'lower']))
    .option('--primary <date>', words.primary)
    .option('--factors <columns>', words.factors)
    .option('--contrast <contrast>', words.contrast, collect, [])
    .addOption(
      new Option('--percent-control <basis>', words.percentControl)
        .choices(PERCENT_CONTROL_BASES)
        .default('means'),
    )
    .addOption(
      new Option('--interval <method>', words.interval).choices(['fieller', 'delta']).default('fieller'),
    )
    .option('--minimum-pressure <number>', words.minimumPressure, '0')
    .option('--baseline <date>', words.baseline)
    .option('--covariate <date>', words.covariate)
    .option('--first-application <date>', words.firstApplication)
    .option('--control-threshold <number>', words.controlThreshold)
    .option('--count-from <date>', words.countFrom)
    .action(async (path: string, options: CompareArguments) => {
      await compare(path, options);
    });
}

/** @throws UsageError for what cannot be used */
async function compare(path: string, options: CompareArguments): Promise<void> {
  const trial = options.trial === undefined ? NO_TRIAL : await readTrial(options.trial);
  const scale = options.scale === undefined ? null : scaleOf(options.scale);
  const { table, beside } = besideApart(await readTable(path, options, trial, scale), trial.beside);
  const comparisonOptions = comparisonOptionsOf(options, trial, table);
  const comparison = compareTrial(table.observations, comparisonOptions);
  const notes = [...tableNotes(table), ...beside];
  const variable = {
    name: options.value,
    unit: options.unit ?? (options.value === 'cover_percent' ? '%' : null),
    scale: scale ?? (options.value === 'cover_percent' ? ([0, 100] as const) : null),
    better: options.better ?? null,
  };
  if (options.json !== undefined) {
    const json = writeComparison(comparison, variable, notes, noteText, RESULTS_CAUTION);
    if (options.json === '-') {
      process.stdout.write(json);
      return;
    }
    await writeWhole(options.json, json).catch((error: unknown) => {
      throw new UsageError(words.cannotWrite(options.json!, reasonOf(error)));
    });
  }
  process.stdout.write(comparisonTable(comparison, { variable: variable.name, unit: variable.unit, notes }));
}

/** A trial plan of this program, or a plain trial file with plots and control. */
async function readTrial(path: string): Promise<ComparisonTrial> {
  const text = await readText(path);
  const plan = readTrialPlan(text);
  if (plan.ok) return comparisonTrialOf(plan.value);
  const [problem] = plan.problems;
  if (problem && problem.code !== 'plan-not-json' && problem.code !== 'plan-other-type') {
    throw new UsageError(words.badPlan(path, trialPlanProblemText(problem)));
  }
  const reading = readComparisonTrial(text);
  if (!reading.ok) throw new UsageError(words.badTrial(path, reading.field, reading.detail));
  return reading.trial;
}

async function readText(path: string): Promise<string> {
  return await readFile(path, 'utf8').catch((error: unknown) => {
    const tooLarge = (error as { code?: string }).code === 'ERR_STRING_TOO_LONG';
    throw new UsageError(tooLarge ? words.tooLarge(path) : words.cannotRead(path, reasonOf(error)));
  });
}

async function readTable(
  path: string,
  options: CompareArguments,
  trial: ComparisonTrial,
  scale: readonly [number, number] | null,
): Promise<ObservationTable> {
  const reading = readObservationTable(await readText(path), {
    valueColumn: options.value,
    scale,
    classId: options.class ?? null,
    method: options.method ?? null,
    factors: factorsOf(options),
    plots: trial.plots,
    classes: options.value === 'cover_percent' ? trial.classes : null,
  });
  if (!reading.ok) {
    throw new UsageError(
      words.tableProblems(path, reading.problems.map(observationProblemText), reading.count),
    );
  }
  return reading.table;
}

/** The table without plots beside the trial, as the Compare screen has it, and the note that tells of them. */
function besideApart(
  table: ObservationTable,
  beside: ReadonlySet<string>,
): { readonly table: ObservationTable; readonly beside: readonly Note[] } {
  const observations = table.observations.filter(({ treatment }) => !beside.has(treatment));
  const count = table.observations.length - observations.length;
  if (count === 0) return { table, beside: [] };
  return {
    table: { ...table, observations },
    beside: [note('beside-left-out', { count, treatments: [...beside] })],
  };
}

function comparisonOptionsOf(
  options: CompareArguments,
  trial: ComparisonTrial,
  { observations }: ObservationTable,
): ComparisonOptions {
  const treatments = [...new Set(observations.map(({ treatment }) => treatment))].sort(compareNames);
  const dates = [...new Set(observations.map(({ ratingDate }) => ratingDate))].sort();
  const control = options.control ?? trial.control;
  if (options.control !== undefined && !treatments.includes(options.control)) {
    throw new UsageError(words.noControl(options.control, treatments));
  }
  const design = designFor(options, trial, observations);
  checkTransform(
    options.transform,
    observations.map(({ value }) => value),
  );
  if (options.percentControl === 'blocks' && design !== 'randomized-complete-block') {
    throw new UsageError(words.blocksNeeded);
  }
  if (options.baseline !== undefined && control === null) throw new UsageError(words.baselineNeedsControl);
  const firstApplication = dayOf('--first-application', options.firstApplication) ?? trial.firstApplication;
  const baselineDate = ratedDay('--baseline', options.baseline, dates);
  const covariateDate = ratedDay('--covariate', options.covariate, dates);
  for (const date of [baselineDate, covariateDate]) {
    const problem = date === null ? null : baselineProblem(date, firstApplication);
    if (problem) throw new UsageError(noteText(problem));
  }
  const contrasts = options.contrast.map(contrastOf);
  for (const contrast of contrasts) {
    const problem = contrastProblem(contrast, treatments);
    if (problem) throw new UsageError(words.contrastProblem(problem, treatments));
  }
  const primary =
    options.primary === PRIMARY_AREA ? PRIMARY_AREA : ratedDay('--primary', options.primary, dates);
  return {
    design,
    transform: options.transform,
    alpha: numberOf('--alpha', options.alpha, words.allowed.alpha, (value) => value > 0 && value < 1),
    control,
    factors: factorsOf(options),
    contrasts,
    primary,
    better: options.better ?? null,
    percentControl: {
      basis: options.percentControl,
      interval: options.interval,
      minimumPressure: numberOf(
        '--minimum-pressure',
        options.minimumPressure,
        words.allowed.pressure,
        (value) => value >= 0,
      ),
    },
    baselineDate,
    covariateDate,
    firstApplication,
    lengthOfControl: lengthOptions(options, trial, control),
  };
}

function designFor(
  options: CompareArguments,
  trial: ComparisonTrial,
  observations: ObservationTable['observations'],
): TrialDesign {
  const design = options.design ?? trial.design ?? designOf(observations);
  const missing = groundFactors(design).filter((name) =>
    observations.some((observation) => observation[name] === null),
  );
  if (missing.length > 0) throw new UsageError(words.needsColumns(design, missing));
  return design;
}

function checkTransform(transform: Transform, values: readonly number[]): void {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    least = Math.min(least, value);
    most = Math.max(most, value);
  }
  if (transform === 'arcsine-square-root' && (least < 0 || most > 100)) {
    throw new UsageError(words.arcsineNeedsPercent(least, most));
  }
  if (transform === 'log' && least <= -1) throw new UsageError(words.logNeedsPositive(least));
}

function lengthOptions(
  options: CompareArguments,
  trial: ComparisonTrial,
  control: string | null,
): { readonly threshold: number; readonly countedFrom: string } | null {
  if (options.controlThreshold === undefined) return null;
  const threshold = numberOf(
    '--control-threshold',
    options.controlThreshold,
    words.allowed.number,
    Number.isFinite,
  );
  if (control === null) throw new UsageError(words.thresholdNeedsControl);
  const countedFrom = dayOf('--count-from', options.countFrom) ?? trial.sowingDate;
  if (countedFrom === null) throw new UsageError(words.noCountFrom);
  return { threshold, countedFrom };
}

function factorsOf({ factors }: CompareArguments): string[] {
  return (factors ?? '')
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '');
}

/** "name: A=1, B=-0.5, C=-0.5". */
function contrastOf(text: string): PlannedContrast {
  const bad = (): never => {
    throw new UsageError(words.badOption('--contrast', text, words.allowed.contrast));
  };
  const colon = text.indexOf(':');
  if (colon < 1) return bad();
  const weights = text
    .slice(colon + 1)
    .split(',')
    .map((part) => {
      const at = part.lastIndexOf('=');
      const weight = Number(part.slice(at + 1));
      if (at < 1 || part.slice(at + 1).trim() === '' || !Number.isFinite(weight)) return bad();
      return [part.slice(0, at).trim(), weight] as const;
    });
  return { name: text.slice(0, colon).trim(), weights: Object.fromEntries(weights) };
}

function scaleOf(text: string): readonly [number, number] {
  const parts = /^\s*(-?\d+(?:\.\d+)?)\s*\.\.\s*(-?\d+(?:\.\d+)?)\s*$/.exec(text);
  const least = Number(parts?.[1]);
  const most = Number(parts?.[2]);
  if (!parts || !(least < most)) throw new UsageError(words.badOption('--scale', text, words.allowed.scale));
  return [least, most];
}

function numberOf(
  option: string,
  text: string,
  allowed: string,
  isAllowed: (value: number) => boolean,
): number {
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (!isAllowed(value)) throw new UsageError(words.badOption(option, text, allowed));
  return value;
}

function dayOf(option: string, text: string | undefined): string | null {
  if (text === undefined) return null;
  if (!isCalendarDay(text)) throw new UsageError(words.badOption(option, text, words.allowed.day));
  return text;
}

function ratedDay(option: string, text: string | undefined, dates: readonly string[]): string | null {
  const day = dayOf(option, text);
  if (day !== null && !dates.includes(day)) throw new UsageError(words.noDate(option, day, dates));
  return day;
}
