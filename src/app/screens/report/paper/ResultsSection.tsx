import { tableNotes } from '../../../../core/exchange/observationTable.ts';
import type { DateResult, VariableResult } from '../../../../core/report/reportResults.ts';
import type { TrialReport } from '../../../../core/report/trialReport.ts';
import { confidencePercent } from '../../../../core/statistics/confidencePercent.ts';
import type { PercentControlTable } from '../../../../core/statistics/percentControlTable.ts';
import type { TreatmentAnalysis } from '../../../../core/statistics/treatmentAnalysis.ts';
import { compareText, type VariableWords, variableWords } from '../../../../core/text/compare.ts';
import { formatDay } from '../../../../core/text/format.ts';
import { reportText as text } from '../../../../core/text/report.ts';
import { formatP, formatSignificant, noteText } from '../../../../core/text/statistics.ts';
import { EXPERIMENTAL_USE } from '../../../../core/text/trial.ts';
import { coverOverTime } from '../../../charts/CoverOverTime.tsx';
import type { ApplicationMark } from '../../../charts/chartTypes.ts';
import { plotValueMap } from '../../../charts/PlotValueMap.tsx';
import { treatmentBars } from '../../../charts/TreatmentBars.tsx';
import { chartMeans, chartTreatments, quantityOf } from '../../../charts/trialMeans.ts';
import { Part, Section } from './headings.tsx';
import { PaperFigure } from './PaperFigure.tsx';
import { PaperTable } from './PaperTable.tsx';

interface ResultProps {
  readonly report: TrialReport;
  readonly result: VariableResult;
}

/** What is said of a variable in a report. */
export const wordsIn = ({ declared, trial, ratedVariables }: TrialReport, result: VariableResult) =>
  variableWords(result.variable, declared?.analysis.classes ?? trial.classes, ratedVariables);

/** Treatments as charts take them; a copy without names has numbers alone. */
const chartPlan = ({ treatments }: TrialReport) => ({
  treatments: treatments.map(({ number, name }) => ({ number, name: name ?? '' })),
});

const short = (date: string) => formatDay(date, 'short');

/** The date a copy shows first: the deciding one, or the last. */
export function mainDate({ declared }: TrialReport, { dates }: VariableResult): DateResult {
  const when = declared?.analysis.when;
  const decides =
    when?.kind === 'date' ? dates.find(({ ratingDate }) => ratingDate === when.ratingDate) : null;
  return decides ?? dates.at(-1)!;
}

/** Results by date of the declared variable, then of all others. */
export function ResultsSection({ report }: { report: TrialReport }) {
  const { results, declared } = report;
  if (!declared) {
    return (
      <Section title={text.sections.results}>
        <p>{text.notDeclared}</p>
      </Section>
    );
  }
  const others = results.filter(({ isDeclared }) => !isDeclared);
  return (
    <>
      <Section title={text.sections.results}>
        {results
          .filter(({ isDeclared }) => isDeclared)
          .map((result) => (
            <DeclaredResult key="declared" report={report} result={result} />
          ))}
      </Section>
      {others.length > 0 && (
        <Section title={text.sections.others}>
          <p className="paper-intro">{text.othersHint}</p>
          {others.map((result) => (
            <SeasonTable key={wordsIn(report, result).name} report={report} result={result} />
          ))}
        </Section>
      )}
    </>
  );
}

function DeclaredResult({ report, result }: ResultProps) {
  const main = mainDate(report, result);
  const decides = report.declared!.analysis.when;
  return (
    <>
      {result.dates.length > 1 && (
        <>
          <SeasonTable report={report} result={result} />
          <OverTimeFigure report={report} result={result} />
        </>
      )}
      {result.dates.map((date) => {
        const isPrimary = decides.kind === 'date' && decides.ratingDate === date.ratingDate;
        return (
          <Part
            key={date.ratingDate}
            title={`${formatDay(date.ratingDate)} (${isPrimary ? text.decides : text.exploratory.toLowerCase()})`}
          >
            <DateTable report={report} result={result} date={date} />
            {date === main && (
              <>
                <BarsFigure report={report} result={result} date={date} />
                <AnovaTable
                  title={text.tables.anova(
                    compareText.means.title(wordsIn(report, result).name, date.ratingDate),
                  )}
                  rows={date.comparison.analysis.anova}
                />
                <ValueMapFigure report={report} result={result} date={date} />
              </>
            )}
          </Part>
        );
      })}
      <OverDates report={report} result={result} />
    </>
  );
}

/** Means and letters of a variable by treatment and date. */
function SeasonTable({ report, result }: ResultProps) {
  const words = wordsIn(report, result);
  const when = report.declared!.analysis.when;
  const decides = result.isDeclared && when.kind === 'date' ? short(when.ratingDate) : null;
  return (
    <PaperTable
      caption={text.tables.season(words.name) + (words.scale ? `, ${words.scale}` : '')}
      columns={[
        { head: text.columns.treatment },
        ...result.dates.map(({ ratingDate }) => ({ head: short(ratingDate), numeric: true })),
      ]}
      rows={chartTreatments(chartPlan(report)).map(({ treatment, label }) => ({
        key: treatment,
        strong: treatment === result.control,
        cells: [
          <Named key="name" treatment={treatment} label={label} />,
          ...result.dates.map(({ comparison }) => {
            const own = comparison.analysis.treatments.find((one) => one.treatment === treatment);
            return own?.mean === null || own === undefined
              ? text.none
              : `${fixed(own.mean, words)} ${own.lettersHsd ?? ''}`.trim();
          }),
        ],
      }))}
      notes={[
        text.seasonHint(decides),
        ...tableNotes(result.observations).map(noteText),
        ...(report.experimental ? [EXPERIMENTAL_USE] : []),
      ]}
    />
  );
}

const Named = ({ treatment, label }: { treatment: string; label: string }) => (
  <>
    <strong>{treatment}</strong> {label}
  </>
);

const fixed = (value: number | null | undefined, { decimals }: VariableWords): string =>
  value === null || value === undefined
    ? text.none
    : (value + 0)
        .toFixed(decimals)
        .replace(/^-(0(\.0*)?)$/, '$1')
        .replace('-', '−');

/** All that the comparison of one date says of each treatment. */
export function DateTable({ report, result, date }: ResultProps & { readonly date: DateResult }) {
  const words = wordsIn(report, result);
  const { analysis, percentControl, notes } = date.comparison;
  const said = [...notes, ...analysis.notes, ...(percentControl?.notes ?? [])].map(noteText);
  const { missingPlots, adjacent } = date;
  return (
    <MeansTable
      title={compareText.means.title(words.name, date.ratingDate)}
      report={report}
      words={words}
      analysis={analysis}
      percentControl={percentControl}
      control={result.control}
      notes={[
        ...(missingPlots.length > 0 ? [text.missing(missingPlots)] : []),
        ...(adjacent
          ? [compareText.means.adjacent(adjacent.plots, fixed(adjacent.mean, words) + words.unit)]
          : []),
        ...said,
      ]}
    />
  );
}

interface MeansTableProps {
  readonly title: string;
  readonly report: TrialReport;
  readonly words: VariableWords;
  readonly analysis: TreatmentAnalysis;
  readonly percentControl: PercentControlTable | null;
  readonly control: string | null;
  readonly notes: readonly string[];
}

function MeansTable(props: MeansTableProps) {
  const { title, report, words, analysis, percentControl, control, notes } = props;
  const { alpha, transform, leastSignificantDifference, honestlySignificantDifference } = analysis;
  const means = compareText.means;
  const onScale = transform === 'none';
  const between = (low: number | null | undefined, high: number | null | undefined): string =>
    low === null || low === undefined || high === null || high === undefined
      ? text.none
      : means.between(fixed(low, words), fixed(high, words));
  const said = (value: number | null): string => (value === null ? text.none : formatSignificant(value));
  return (
    <PaperTable
      caption={title}
      columns={[
        { head: means.treatment },
        { head: means.n, numeric: true },
        { head: means.mean(words.scale), numeric: true },
        { head: means.tukey },
        ...(onScale ? [{ head: means.standardError, numeric: true }] : []),
        { head: means.limits(String(confidencePercent(alpha))), numeric: true },
        ...(control !== null && onScale ? [{ head: means.difference, numeric: true }] : []),
        ...(control !== null ? [{ head: means.dunnett, numeric: true }] : []),
        ...(percentControl ? [{ head: means.percentControl, numeric: true }] : []),
      ]}
      rows={chartTreatments(chartPlan(report)).map(({ treatment, label }) => {
        const own = analysis.treatments.find((one) => one.treatment === treatment);
        const controlled = percentControl?.treatments.find((one) => one.treatment === treatment);
        const { difference = null, p = null, low, high } = own?.dunnett ?? {};
        const isControl = treatment === control;
        return {
          key: treatment,
          strong: isControl,
          cells: [
            <Named key="name" treatment={treatment} label={label} />,
            own?.n ?? 0,
            fixed(own?.mean, words),
            own?.lettersHsd ?? text.none,
            ...(onScale ? [fixed(own?.standardError, words)] : []),
            between(own?.low, own?.high),
            ...(control !== null && onScale
              ? [
                  isControl || difference === null
                    ? text.none
                    : `${text.signed(difference)} (${between(low, high)})`,
                ]
              : []),
            ...(control !== null ? [p === null ? text.none : formatP(p)] : []),
            ...(percentControl
              ? [controlled?.percentControl == null ? text.none : text.whole(controlled.percentControl)]
              : []),
          ],
        };
      })}
      notes={[
        text.letters,
        means.errors({
          cv:
            analysis.coefficientOfVariation === null
              ? text.none
              : `${analysis.coefficientOfVariation.toFixed(1)} %`,
          sed: said(analysis.standardErrorOfDifference),
          lsd: said(leastSignificantDifference.value),
          hsd: said(honestlySignificantDifference.value),
          alpha: String(alpha),
          df: analysis.errorDf,
        }),
        ...notes,
        ...(report.experimental ? [EXPERIMENTAL_USE] : []),
      ]}
    />
  );
}

function AnovaTable({ title, rows }: { title: string; rows: TreatmentAnalysis['anova'] }) {
  const words = compareText.anova;
  const said = (value: number | null | undefined) =>
    value === null || value === undefined ? text.none : formatSignificant(value);
  return (
    <PaperTable
      caption={title}
      columns={[
        { head: words.source },
        { head: words.df, numeric: true },
        { head: words.sumOfSquares, numeric: true },
        { head: words.meanSquare, numeric: true },
        { head: words.f, numeric: true },
        { head: words.p, numeric: true },
      ]}
      rows={rows.map((row) => ({
        key: row.source,
        cells: [
          words.sources[row.source] ?? row.source,
          row.df,
          said(row.sumOfSquares),
          said(row.meanSquare),
          said(row.f),
          row.p === null || row.p === undefined ? text.none : formatP(row.p),
        ],
      }))}
    />
  );
}

/** Mean over time and length of control, where a copy holds all dates. */
function OverDates({ report, result }: ResultProps) {
  const { overDates, dates, control } = result;
  if (!overDates) return null;
  const words = wordsIn(report, result);
  const { area } = overDates.overDates;
  const { lengthOfControl } = overDates;
  const season = compareText.season;
  const labels = new Map(
    chartTreatments(chartPlan(report)).map(({ treatment, label }) => [treatment, label]),
  );
  const day = (value: string | null) => (value === null ? text.none : short(value));
  return (
    <Part title={season.area}>
      {area && (
        <MeansTable
          title={compareText.means.overDates(words.name, dates[0]!.ratingDate, dates.at(-1)!.ratingDate)}
          report={report}
          words={words}
          analysis={area.analysis}
          percentControl={null}
          control={control}
          notes={[...area.analysis.notes, ...overDates.overDates.notes].map(noteText)}
        />
      )}
      {lengthOfControl && lengthOfControl.treatments.length > 0 && (
        <PaperTable
          caption={text.tables.length}
          columns={[
            { head: compareText.means.treatment },
            { head: season.days, numeric: true },
            { head: season.held, numeric: true },
            { head: season.passed, numeric: true },
          ]}
          rows={lengthOfControl.treatments.map(
            ({ treatment, heldDays, passedDays, heldUntil, passedOn }) => ({
              key: treatment,
              cells: [
                <Named key="name" treatment={treatment} label={labels.get(treatment) ?? ''} />,
                daysText(heldDays, passedDays),
                day(heldUntil),
                day(passedOn),
              ],
            }),
          )}
          notes={[
            season.lengthSentence(`${lengthOfControl.threshold}${words.unit}`, lengthOfControl.countedFrom),
            ...lengthOfControl.notes.map(noteText),
          ]}
        />
      )}
      {lengthOfControl && lengthOfControl.treatments.length === 0 && (
        <p>{lengthOfControl.notes.map(noteText).join(' ')}</p>
      )}
    </Part>
  );
}

function daysText(held: number | null, passed: number | null): string {
  const season = compareText.season;
  if (held === null && passed === null) return text.none;
  if (passed === null) return season.atLeast(held!);
  return held === null ? season.atMost(passed) : season.between(held, passed);
}

function OverTimeFigure({ report, result }: ResultProps) {
  const words = wordsIn(report, result);
  const plan = chartPlan(report);
  const onScale = result.dates[0]!.comparison.analysis.transform === 'none';
  return (
    <PaperFigure
      content={coverOverTime({
        title: compareText.season.overTime(words.name),
        fileName: '',
        quantity: quantityOf(words),
        treatments: chartTreatments(plan),
        dates: result.dates.map(({ ratingDate, comparison }) => ({
          ratingDate,
          means: chartMeans(plan, comparison.analysis),
        })),
        spread: onScale ? 'standard-error' : 'interval',
        applications: marksOf(report),
        sowingDate: report.trial.sowing.date,
      })}
    />
  );
}

/** Applications with a day as marks of a time axis; a copy without names shows none. */
const marksOf = ({ applications }: TrialReport): ApplicationMark[] =>
  applications.flatMap(({ day, description, treatments, progress }) =>
    day === null || description === null || progress.state === 'left-out'
      ? []
      : treatments.map((treatment) => ({
          treatment: String(treatment),
          date: day,
          name: description,
          done: progress.state === 'done',
        })),
  );

export function BarsFigure({ report, result, date }: ResultProps & { readonly date: DateResult }) {
  const words = wordsIn(report, result);
  return (
    <PaperFigure
      content={treatmentBars({
        title: compareText.bars(words.name, date.ratingDate),
        fileName: '',
        quantity: quantityOf(words),
        ratingDate: date.ratingDate,
        means: chartMeans(chartPlan(report), date.comparison.analysis),
        spread: 'interval',
        intervalPercent: confidencePercent(date.comparison.analysis.alpha),
      })}
    />
  );
}

/** Plots need not be larger than their words. */
const MAP_PX = 400;
/** Length over width of a plot whose size is not recorded: low, so that the picture is no larger than it needs to be. */
const DRAWN_ASPECT = 0.55;

function ValueMapFigure({ report, result, date }: ResultProps & { readonly date: DateResult }) {
  const words = wordsIn(report, result);
  const all = result.observations.observations;
  const values = new Map(
    all.filter(({ ratingDate }) => ratingDate === date.ratingDate).map(({ plot, value }) => [plot, value]),
  );
  const size = report.trial.plotSize;
  const every = all.map(({ value }) => value);
  return (
    <PaperFigure
      widthPx={MAP_PX}
      content={plotValueMap({
        title: compareText.pictures.map(words.name, date.ratingDate),
        fileName: '',
        quantity: quantityOf(words),
        ratingDate: date.ratingDate,
        plots: report.plots.map(({ plot, treatment, block, row, column }) => ({
          plot,
          treatment: String(treatment),
          block: block === null ? null : String(block),
          row,
          column,
          value: values.get(plot) ?? null,
        })),
        bounds: [
          every.reduce((least, value) => Math.min(least, value), Number.POSITIVE_INFINITY),
          every.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY),
        ],
        plotAspect: size ? size.grossLengthMm / size.grossWidthMm : DRAWN_ASPECT,
      })}
    />
  );
}
