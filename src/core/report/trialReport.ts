import {
  type DeclarationDrift,
  type DeclaredAnalysis,
  declarationDrift,
} from '../statistics/declaredAnalysis.ts';
import { declaredFinding, type FoundOrNot } from '../statistics/declaredFinding.ts';
import { type ApplicationProgress, applicationsBy } from '../trial/applicationsBy.ts';
import { daysBetween } from '../trial/calendarDay.ts';
import { isExperimental } from '../trial/experimentalUse.ts';
import { plotKey } from '../trial/plot.ts';
import type { Treatment } from '../trial/treatment.ts';
import type { TrialPlan } from '../trial/trialPlan.ts';
import type { WeatherDay } from '../trial/weather.ts';
import {
  type ConductEntry,
  conductRecord,
  type ReportApplication,
  reportApplications,
} from './conductRecord.ts';
import { type CorrectionFacts, correctionFacts } from './correctionFacts.ts';
import { type MeasuringFacts, measuringFacts } from './measuringFacts.ts';
import { type AppendixRow, plotAppendix } from './plotAppendix.ts';
import { type PointFacts, pointFacts } from './pointFacts.ts';
import { type VariableResult, variableResults } from './reportResults.ts';
import type { ReportChoices, ReportDeclaration, ReportPhoto, ReportSource } from './reportSource.ts';

/** A treatment as a copy shows it. */
export interface ReportTreatment extends Pick<Treatment, 'number' | 'untreatedControl'> {
  /** Null in a copy without names, as are its levels and notes. */
  readonly name: string | null;
  readonly levels: Treatment['levels'] | null;
  readonly notes: string | null;
  readonly applications: ApplicationProgress;
}

/** A rating date with what was got on it. */
export interface ReportDate {
  readonly ratingDate: string;
  /** Null without a sowing date; negative before it. */
  readonly daysFromSowing: number | null;
  /** Measured photos of the trial's plots. */
  readonly photos: number;
  readonly photographedPlots: number;
  readonly scoredPlots: number;
}

/** A variable scored by eye, as far as it was. */
export interface ScoredVariable {
  readonly name: string;
  readonly unit: string;
  readonly scores: number;
  readonly raters: readonly string[];
  readonly ratingDates: readonly string[];
}

/** What was declared, and what became of it. */
export interface ReportDeclared {
  readonly first: ReportDeclaration;
  readonly amendments: readonly ReportDeclaration[];
  readonly analysis: DeclaredAnalysis;
  readonly drift: readonly DeclarationDrift[];
}

/**
 * A whole report as plain data; core/text makes sentences of it. It holds what was done, as far as it is recorded: unknown
 * is null or empty. Nothing by treatment is in it before an analysis was declared.
 */
export interface TrialReport {
  readonly madeAt: string;
  readonly withNames: boolean;
  readonly experimental: boolean;
  readonly trial: TrialPlan['trial'];
  readonly ratedVariables: TrialPlan['ratedVariables'];
  /** Null where none is written. */
  readonly objective: string | null;
  readonly treatments: readonly ReportTreatment[];
  readonly layout: TrialPlan['layout'];
  readonly plots: TrialPlan['plots'];
  readonly framePlan: TrialPlan['framePlan'];
  /** Rating dates in this copy, in order. */
  readonly dates: readonly ReportDate[];
  /** Rating dates that this copy leaves out. */
  readonly datesLeftOut: readonly string[];
  readonly measuring: MeasuringFacts | null;
  readonly corrections: CorrectionFacts | null;
  readonly points: PointFacts | null;
  /** Photos with a figure adjusted for the mask's errors. */
  readonly adjustedPhotos: number;
  readonly scored: readonly ScoredVariable[];
  readonly weather: { readonly days: number; readonly first: string; readonly last: string } | null;
  readonly declared: ReportDeclared | null;
  readonly applications: readonly ReportApplication[];
  readonly conduct: readonly ConductEntry[];
  readonly deviations: TrialPlan['deviations'];
  readonly exclusions: TrialPlan['exclusions'];
  /** Null before an analysis was declared. */
  readonly finding: FoundOrNot | null;
  /** The declared variable first. */
  readonly results: readonly VariableResult[];
  readonly appendix: readonly AppendixRow[];
  readonly versions: {
    readonly software: string;
    readonly database: number;
    readonly trialCode: string;
  };
}

/** Makes the report of a trial from its records; the same records give the same report. */
export function trialReport(source: ReportSource, choices: ReportChoices): TrialReport {
  const { plan, scores, declarations, comparisons } = source;
  const { withNames } = choices;
  const isShown = (date: string) => choices.ratingDates === null || choices.ratingDates.includes(date);
  const plots = new Map(plan.plots.map((plot) => [plotKey(plot.plot), plot]));
  const isPlot = (plot: string | null) => plot !== null && plots.has(plotKey(plot));
  const ofTrial = source.photos.filter(({ plot, ratingDate }) => isPlot(plot) && ratingDate !== null);
  const photos = ofTrial.filter(({ ratingDate }) => isShown(ratingDate!));
  const ownScores = scores.filter(({ plot, value }) => isPlot(plot) && value !== null);
  const allDates = reportableDates(source);
  const dates = allDates.filter(isShown).map((date) => reportDate(date, plan, photos, ownScores));
  const declared = declaredOf(declarations, plan);
  const compared = comparisons[0];
  const applications = reportApplications(plan, withNames);
  const shownIds = new Set(photos.map(({ id }) => id));
  return {
    madeAt: source.madeAt,
    withNames,
    experimental: isExperimental(plan),
    trial: plan.trial,
    ratedVariables: plan.ratedVariables,
    objective: plan.trial.objective?.trim() || null,
    treatments: reportTreatments(plan, source.madeAt.slice(0, 10), withNames),
    layout: plan.layout,
    plots: plan.plots,
    framePlan: plan.framePlan,
    dates,
    datesLeftOut: allDates.filter((date) => !isShown(date)),
    measuring: measuringFacts(photos, source.models),
    corrections: correctionFacts({
      photos,
      reviews: source.reviews,
      signOffs: source.signOffs.filter(({ ratingDate }) => isShown(ratingDate)),
      treatmentOf: ({ plot }) => String(plots.get(plotKey(plot!))!.treatment),
      showTreatments: declared !== null,
    }),
    points: pointFacts(
      source.counted.filter(({ photoId }) => shownIds.has(photoId)),
      plan.trial.classes.map(({ id }) => id),
    ),
    adjustedPhotos: photos.filter(({ figures }) => figures.adjusted !== undefined).length,
    scored: scoredVariables(
      plan,
      ownScores.filter(({ ratingDate }) => isShown(ratingDate)),
    ),
    weather: weatherSpan(source.weather),
    declared,
    applications,
    conduct: conductRecord(
      plan,
      applications,
      dates.map(({ ratingDate, photos: count, scoredPlots }) => ({
        day: ratingDate,
        photos: count,
        scoredPlots,
      })),
    ),
    deviations: plan.deviations,
    exclusions: plan.exclusions,
    finding:
      declared &&
      (compared ? declaredFinding(plan, declared.analysis, compared) : { ok: false, why: 'pending' }),
    results: declared ? variableResults(plan, declared.analysis, comparisons, choices.ratingDates) : [],
    appendix: declared ? plotAppendix(plan.plots, photos) : [],
    versions: {
      software: source.softwareVersion,
      database: source.databaseVersion,
      trialCode: plan.trial.code,
    },
  };
}

function reportDate(
  ratingDate: string,
  { trial }: TrialPlan,
  photos: readonly ReportPhoto[],
  scores: ReportSource['scores'],
): ReportDate {
  const measured = photos.filter((photo) => photo.ratingDate === ratingDate && photo.figures.automatic);
  const scored = scores.filter((score) => score.ratingDate === ratingDate);
  const sowing = trial.sowing.date;
  return {
    ratingDate,
    daysFromSowing: sowing === null ? null : daysBetween(sowing, ratingDate),
    photos: measured.length,
    photographedPlots: new Set(measured.map(({ plot }) => plotKey(plot!))).size,
    scoredPlots: new Set(scored.map(({ plot }) => plotKey(plot))).size,
  };
}

function reportTreatments(plan: TrialPlan, day: string, withNames: boolean): ReportTreatment[] {
  const done = plan.applications.flatMap(({ progress }) =>
    progress.state === 'done' ? [progress.date] : [],
  );
  // what a clock set wrong calls tomorrow is done all the same
  const progress = applicationsBy(plan, [day, ...done].sort().at(-1)!);
  return plan.treatments
    .map(({ number, name, untreatedControl, levels, notes }) => ({
      number,
      untreatedControl,
      name: withNames ? name : null,
      levels: withNames ? levels : null,
      notes: withNames ? notes.trim() || null : null,
      applications: progress.get(number)!,
    }))
    .sort((a, b) => a.number - b.number);
}

function declaredOf(declarations: ReportSource['declarations'], plan: TrialPlan): ReportDeclared | null {
  const [first, ...amendments] = declarations;
  const analysis = declarations.at(-1)?.declared;
  if (!first || !analysis) return null;
  return { first, amendments, analysis, drift: declarationDrift(analysis, plan) };
}

function scoredVariables({ ratedVariables }: TrialPlan, scores: ReportSource['scores']): ScoredVariable[] {
  return ratedVariables.flatMap(({ id, name, unit }) => {
    const own = scores.filter(({ variable }) => variable === id);
    if (own.length === 0) return [];
    const distinct = (items: readonly string[]) => [...new Set(items)].sort();
    return [
      {
        name,
        unit,
        scores: own.length,
        raters: distinct(own.flatMap(({ rater }) => rater ?? [])),
        ratingDates: distinct(own.map(({ ratingDate }) => ratingDate)),
      },
    ];
  });
}

function weatherSpan(weather: readonly WeatherDay[]): TrialReport['weather'] {
  const days = weather.map(({ day }) => day).sort();
  return days.length === 0 ? null : { days: days.length, first: days[0]!, last: days.at(-1)! };
}

/** Rating dates of a trial that a copy may show: those with a figure or a score on a plot. */
export function reportableDates({
  plan,
  photos,
  scores,
}: Pick<ReportSource, 'plan' | 'photos' | 'scores'>): string[] {
  const plots = new Set(plan.plots.map(({ plot }) => plotKey(plot)));
  const dates = [
    ...photos.flatMap(({ plot, ratingDate, figures }) =>
      plot !== null && ratingDate !== null && plots.has(plotKey(plot)) && Object.keys(figures).length > 0
        ? [ratingDate]
        : [],
    ),
    ...scores.flatMap(({ plot, ratingDate, value }) =>
      plots.has(plotKey(plot)) && value !== null ? [ratingDate] : [],
    ),
  ];
  return [...new Set(dates)].sort();
}
