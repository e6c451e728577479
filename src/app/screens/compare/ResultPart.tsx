import { writeComparison } from '../../../core/exchange/comparison.ts';
import { tableNotes } from '../../../core/exchange/observationTable.ts';
import { roleNotes } from '../../../core/statistics/compareTrial.ts';
import { confidencePercent } from '../../../core/statistics/confidencePercent.ts';
import { compareText } from '../../../core/text/compare.ts';
import { noteText } from '../../../core/text/statistics.ts';
import { RESULTS_CAUTION } from '../../../core/text/statisticsCommands.ts';
import { isExperimental } from '../../../core/trial/experimentalUse.ts';
import { applicationMarks } from '../../charts/applicationMarks.ts';
import { CoverOverTime } from '../../charts/CoverOverTime.tsx';
import { TreatmentBars } from '../../charts/TreatmentBars.tsx';
import { chartMeans, chartTreatments, quantityOf } from '../../charts/trialMeans.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { saveBlob } from '../../components/saveBlob.ts';
import type { VariableComparison } from '../../session/comparison.ts';
import { AnovaTable } from './AnovaTable.tsx';
import styles from './CompareScreen.module.css';
import { type ComparedTrial, comparisonOf, wordsOf } from './comparedTrial.ts';
import { FindingBlock } from './FindingBlock.tsx';
import { MeansTable } from './MeansTable.tsx';
import { NoteList } from './NoteList.tsx';
import { NoValues } from './NoValues.tsx';
import type { PartProps } from './partProps.ts';
import { ShownFields } from './ShownFields.tsx';
import { shownDate, shownVariable } from './useDateShown.ts';
import { useWanted } from './useWanted.ts';

const text = compareText.means;

/** The finding; below it the table and bars of one date, and the season at a glance. */
export function ResultPart({ compared, shown }: PartProps) {
  const variable = shownVariable(compared, shown);
  useWanted(compared, [variable]);
  const comparison = comparisonOf(compared, variable);
  const date = shownDate(compared, variable, shown);
  const isEmpty = comparison !== null && comparison.dates.length === 0;
  return (
    <div className={blocks.sections}>
      <FindingBlock compared={compared} />
      <ShownFields compared={compared} shown={shown} />
      {isEmpty && <NoValues compared={compared} variable={variable} />}
      {comparison && date !== null && (
        <>
          <OneDate compared={compared} comparison={comparison} date={date} />
          <Season compared={compared} comparison={comparison} />
        </>
      )}
    </div>
  );
}

interface OneDateProps {
  readonly compared: ComparedTrial;
  readonly comparison: VariableComparison;
  readonly date: string;
}

function OneDate({ compared, comparison, date }: OneDateProps) {
  const { plan, declared } = compared;
  const { variable, options, byDate, observations } = comparison;
  const found = byDate.get(date);
  const words = wordsOf(compared, variable);
  const title = text.title(words.name, date);
  if (!found) return <p role="status">{compareText.working}</p>;
  const { analysis, percentControl } = found;
  const notes = [
    ...found.notes,
    ...analysis.notes,
    ...(percentControl?.notes ?? []),
    ...tableNotes(observations),
  ];
  const missing = plotsWithout(compared, comparison, date);
  const beside = observations.adjacent.filter(({ ratingDate }) => ratingDate === date);
  const mean = beside.reduce((sum, { value }) => sum + value, 0) / beside.length;
  return (
    <section className={blocks.section} aria-label={title}>
      <h2>{title}</h2>
      <MeansTable
        title={title}
        plan={plan}
        words={words}
        analysis={analysis}
        percentControl={percentControl}
        control={options.control ?? null}
        day={date}
      />
      {missing.length > 0 && <p className={blocks.hint}>{text.missing(missing)}</p>}
      {beside.length > 0 && (
        <p className={blocks.hint}>
          {text.adjacent(beside.length, mean.toFixed(words.decimals) + words.unit)}
        </p>
      )}
      <NoteList notes={notes} />
      <details className={styles.more}>
        <summary>{text.anova}</summary>
        <AnovaTable title={`${text.anova}: ${title}`} rows={analysis.anova} />
      </details>
      <TreatmentBars
        title={compareText.bars(words.name, date)}
        fileName={fileName(compared, `${date}-treatments`)}
        quantity={quantityOf(words)}
        ratingDate={date}
        means={chartMeans(plan, analysis)}
        spread="interval"
        intervalPercent={confidencePercent(declared.alpha)}
        experimental={isExperimental(plan)}
      />
    </section>
  );
}

function Season({ compared, comparison }: { compared: ComparedTrial; comparison: VariableComparison }) {
  const { plan, trial } = compared;
  const { variable, dates, byDate, overDates } = comparison;
  const words = wordsOf(compared, variable);
  const complete = dates.every((date) => byDate.has(date));
  return (
    <section className={blocks.section}>
      {dates.length > 1 && complete && (
        <CoverOverTime
          title={compareText.season.overTime(words.name)}
          fileName={fileName(compared, 'over-time')}
          headingLevel={2}
          quantity={quantityOf(words)}
          treatments={chartTreatments(plan)}
          dates={dates.map((ratingDate) => ({
            ratingDate,
            means: chartMeans(plan, byDate.get(ratingDate)!.analysis),
          }))}
          spread={byDate.get(dates[0]!)!.analysis.transform === 'none' ? 'standard-error' : 'interval'}
          applications={applicationMarks(plan)}
          weather={trial.weather}
          sowingDate={plan.trial.sowing.date}
          experimental={isExperimental(plan)}
        />
      )}
      <Button
        className={blocks.fit}
        disabled={!complete || overDates === undefined}
        onClick={() =>
          saveBlob(
            new Blob([comparisonFile(compared, comparison)], { type: 'application/json' }),
            `${fileName(compared, 'comparison')}.json`,
          )
        }
      >
        {text.save}
      </Button>
    </section>
  );
}

/** The same file as the command line writes for the same values. */
function comparisonFile(compared: ComparedTrial, comparison: VariableComparison): string {
  const { variable, dates, byDate, overDates, options, observations } = comparison;
  const words = wordsOf(compared, variable);
  const rated = compared.plan.ratedVariables.find(
    ({ id }) => variable.kind === 'rated' && id === variable.variableId,
  );
  return writeComparison(
    {
      analyses: dates.map((date) => byDate.get(date)!),
      overDates: overDates ? [overDates] : [],
      notes: roleNotes(dates.length > 1, options.primary ?? null),
    },
    {
      name: rated ? rated.id : 'cover_percent',
      unit: words.scale || null,
      scale: rated ? [rated.least, rated.most] : [0, 100],
      better: options.better ?? null,
    },
    tableNotes(observations),
    noteText,
    RESULTS_CAUTION,
  );
}

/** Plots of the plan in the randomisation without a value on a date. */
function plotsWithout({ plan }: ComparedTrial, { observations }: VariableComparison, date: string): string[] {
  const there = new Set(
    [...observations.observations, ...observations.adjacent]
      .filter(({ ratingDate }) => ratingDate === date)
      .map(({ plot }) => plot),
  );
  return plan.plots.map(({ plot }) => plot).filter((plot) => !there.has(plot));
}

const fileName = ({ plan }: ComparedTrial, what: string) => `${plan.trial.code}-${what}`;
