import type { LengthOfControl } from '../../../core/statistics/lengthOfControl.ts';
import { compareText, type VariableWords } from '../../../core/text/compare.ts';
import { formatDay } from '../../../core/text/format.ts';
import { formatP, formatSignificant } from '../../../core/text/statistics.ts';
import { isExperimental } from '../../../core/trial/experimentalUse.ts';
import { PlotLines } from '../../charts/PlotLines.tsx';
import { chartTreatments, quantityOf } from '../../charts/trialMeans.ts';
import blocks from '../../components/blocks.module.css';
import type { VariableComparison } from '../../session/comparison.ts';
import { AnovaTable } from './AnovaTable.tsx';
import styles from './CompareScreen.module.css';
import { type ComparedTrial, comparisonOf, wordsOf } from './comparedTrial.ts';
import { MeansTable } from './MeansTable.tsx';
import { NoteList } from './NoteList.tsx';
import { NoValues } from './NoValues.tsx';
import type { PartProps } from './partProps.ts';
import { ScrolledTable } from './ScrolledTable.tsx';
import { ShownFields } from './ShownFields.tsx';
import { shownVariable } from './useDateShown.ts';
import { useWanted } from './useWanted.ts';

const text = compareText.season;

/** All dates together: mean over time, tests, length of control, each plot's line. */
export function SeasonPart({ compared, shown }: PartProps) {
  const variable = shownVariable(compared, shown);
  useWanted(compared, [variable]);
  const comparison = comparisonOf(compared, variable);
  const dates = comparison?.dates.length ?? null;
  return (
    <div className={blocks.sections}>
      <ShownFields compared={compared} shown={shown} dates={false} />
      {(comparison === null || (dates! > 1 && comparison.overDates === undefined)) && (
        <p role="status">{text.pending}</p>
      )}
      {dates === 0 && <NoValues compared={compared} variable={variable} />}
      {dates === 1 && <p className={blocks.lead}>{text.one}</p>}
      {comparison?.overDates && (
        <OverDates compared={compared} comparison={comparison} words={wordsOf(compared, variable)} />
      )}
    </div>
  );
}

interface OverDatesProps {
  readonly compared: ComparedTrial;
  readonly comparison: VariableComparison;
  readonly words: VariableWords;
}

function OverDates({ compared, comparison, words }: OverDatesProps) {
  const { plan, declared } = compared;
  const { dates, options } = comparison;
  const { overDates, lengthOfControl } = comparison.overDates!;
  const { area, splitPlot, mixedModel, notes } = overDates;
  const [from, to] = [dates[0]!, dates.at(-1)!];
  const title = compareText.means.overDates(words.name, from, to);
  const isDeclared = comparison.variable === declared.variable;
  return (
    <>
      {area && (
        <section className={blocks.section} aria-label={text.area}>
          <h2>{title}</h2>
          <MeansTable
            title={title}
            plan={plan}
            words={words}
            analysis={area.analysis}
            percentControl={null}
            control={options.control ?? null}
            day={to}
          />
          <NoteList notes={area.analysis.notes} />
        </section>
      )}
      <section className={blocks.section} aria-label={text.tests}>
        <h2>{text.tests}</h2>
        {splitPlot && (
          <div className={styles.sideBySide}>
            <AnovaBlock title={compareText.anova.between} rows={splitPlot.betweenPlots} />
            <AnovaBlock title={compareText.anova.within} rows={splitPlot.withinPlots} />
          </div>
        )}
        {mixedModel && <MixedTests tests={mixedModel.tests} />}
        <NoteList notes={notes} />
      </section>
      <section className={blocks.section} aria-label={text.length}>
        <h2>{text.length}</h2>
        {lengthOfControl ? (
          <>
            {lengthOfControl.treatments.length > 0 && (
              <>
                <p className={blocks.hint}>
                  {text.lengthSentence(
                    `${lengthOfControl.threshold}${words.unit}`,
                    lengthOfControl.countedFrom,
                  )}
                </p>
                <LengthTable rows={lengthOfControl.treatments} plan={plan} />
              </>
            )}
            <NoteList notes={lengthOfControl.notes} />
          </>
        ) : (
          <p className={blocks.soft}>
            {isDeclared && declared.controlThreshold !== null && plan.trial.sowing.date === null
              ? text.noSowing
              : text.noLength}
          </p>
        )}
      </section>
      <PlotLines
        title={text.lines}
        fileName={`${plan.trial.code}-plots-over-time`}
        headingLevel={2}
        quantity={quantityOf(words)}
        ratingDates={dates}
        treatments={plotSeries(compared, comparison)}
        experimental={isExperimental(plan)}
      />
    </>
  );
}

function AnovaBlock({ title, rows }: Parameters<typeof AnovaTable>[0]) {
  return (
    <div className={blocks.section}>
      <h3>{title}</h3>
      <AnovaTable title={title} rows={rows} />
    </div>
  );
}

type MixedModel = NonNullable<NonNullable<VariableComparison['overDates']>['overDates']['mixedModel']>;

function MixedTests({ tests }: Pick<MixedModel, 'tests'>) {
  const words = compareText.anova;
  return (
    <ScrolledTable title={words.mixed}>
      <thead>
        <tr>
          <th scope="col">{words.source}</th>
          {[words.df, words.denominatorDf, words.f, words.p].map((head) => (
            <th key={head} scope="col" className={blocks.number}>
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {tests.map(({ source, numeratorDf, denominatorDf, f, p }) => (
          <tr key={source}>
            <th scope="row">{source}</th>
            <td className={blocks.number}>{numeratorDf}</td>
            <td className={blocks.number}>{formatSignificant(denominatorDf)}</td>
            <td className={blocks.number}>{formatSignificant(f)}</td>
            <td className={blocks.number}>{formatP(p)}</td>
          </tr>
        ))}
      </tbody>
    </ScrolledTable>
  );
}

function LengthTable({
  rows,
  plan,
}: {
  rows: readonly LengthOfControl[];
  plan: Parameters<typeof chartTreatments>[0];
}) {
  const labels = new Map(chartTreatments(plan).map(({ treatment, label }) => [treatment, label]));
  const day = (value: string | null) => (value === null ? compareText.none : formatDay(value, 'short'));
  return (
    <ScrolledTable title={text.length}>
      <thead>
        <tr>
          <th scope="col">{compareText.means.treatment}</th>
          <th scope="col">{text.days}</th>
          <th scope="col">{text.held}</th>
          <th scope="col">{text.passed}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ treatment, heldDays, passedDays, heldUntil, passedOn }) => (
          <tr key={treatment}>
            <th scope="row">
              <strong>{treatment}</strong>
              {labels.get(treatment)}
            </th>
            <td className={styles.strong}>{daysText(heldDays, passedDays)}</td>
            <td>{day(heldUntil)}</td>
            <td>{day(passedOn)}</td>
          </tr>
        ))}
      </tbody>
    </ScrolledTable>
  );
}

function daysText(held: number | null, passed: number | null): string {
  if (held === null && passed === null) return compareText.none;
  if (passed === null) return text.atLeast(held!);
  return held === null ? text.atMost(passed) : text.between(held, passed);
}

/** Values of every plot by date, with the treatment means of the dates. */
function plotSeries({ plan }: ComparedTrial, { dates, byDate, observations }: VariableComparison) {
  const values = new Map(
    observations.observations.map(({ plot, ratingDate, value }) => [`${plot}\t${ratingDate}`, value]),
  );
  return chartTreatments(plan).map(({ treatment, label }) => ({
    treatment,
    label,
    means: dates.map(
      (date) =>
        byDate.get(date)?.analysis.treatments.find((one) => one.treatment === treatment)?.mean ?? null,
    ),
    plots: plan.plots
      .filter((plot) => String(plot.treatment) === treatment)
      .map(({ plot }) => ({
        plot,
        values: dates.map((date) => values.get(`${plot}\t${date}`) ?? null),
      })),
  }));
}
