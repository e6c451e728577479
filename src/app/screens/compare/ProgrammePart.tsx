import { Link } from 'wouter';
import { confidencePercent } from '../../../core/statistics/confidencePercent.ts';
import { compareText } from '../../../core/text/compare.ts';
import { formatDay } from '../../../core/text/format.ts';
import { applicationsBy } from '../../../core/trial/applicationsBy.ts';
import { isExperimental } from '../../../core/trial/experimentalUse.ts';
import { treatmentSummaries } from '../../../core/trial/treatmentSummary.ts';
import { CostAgainstCover } from '../../charts/CostAgainstCover.tsx';
import { chartMeans, quantityOf } from '../../charts/trialMeans.ts';
import blocks from '../../components/blocks.module.css';
import styles from './CompareScreen.module.css';
import { comparisonOf, wordsOf } from './comparedTrial.ts';
import { NoValues } from './NoValues.tsx';
import type { PartProps } from './partProps.ts';
import { ScrolledTable } from './ScrolledTable.tsx';
import { ShownFields } from './ShownFields.tsx';
import { shownDate, shownVariable } from './useDateShown.ts';
import { useWanted } from './useWanted.ts';

const text = compareText.programme;

/** What each programme took and cost, beside what it left. */
export function ProgrammePart({ compared, shown }: PartProps) {
  const { plan, declared } = compared;
  const variable = shownVariable(compared, shown);
  useWanted(compared, [variable]);
  const comparison = comparisonOf(compared, variable);
  const date = shownDate(compared, variable, shown);
  const found = date === null ? undefined : comparison?.byDate.get(date);
  const words = wordsOf(compared, variable);
  const means = found ? chartMeans(plan, found.analysis) : null;
  const summaries = treatmentSummaries(plan);
  const applications = date === null ? null : applicationsBy(plan, date);
  const costs = summaries.some(({ costPerHectare }) => costPerHectare !== null);
  const experimental = new Set(
    plan.applications
      .filter(({ products }) => products.some(({ use }) => use === 'experimental'))
      .flatMap(({ treatments }) => treatments),
  );
  return (
    <div className={blocks.sections}>
      <ShownFields compared={compared} shown={shown} />
      {comparison?.dates.length === 0 && <NoValues compared={compared} variable={variable} />}
      <section className={blocks.section} aria-label={text.title}>
        <h2>{text.title}</h2>
        <ScrolledTable title={text.title}>
          <thead>
            <tr>
              <th scope="col">{compareText.means.treatment}</th>
              <th scope="col">{text.applications}</th>
              <th scope="col">{text.modes}</th>
              <th scope="col" className={blocks.number}>
                {text.cost}
              </th>
              <th scope="col" className={blocks.number}>
                {date === null ? words.name : `${words.name}, ${formatDay(date, 'short')}`}
              </th>
              <th scope="col">{compareText.means.tukey}</th>
            </tr>
          </thead>
          <tbody>
            {summaries.map((summary) => {
              const { treatment, modesOfAction, withoutModeOfAction, costPerHectare, withoutCost } = summary;
              const { name } = plan.treatments.find(({ number }) => number === treatment)!;
              const own = means?.find((one) => one.treatment === String(treatment));
              const progress = applications?.get(treatment) ?? {
                done: summary.applicationsDone,
                total: summary.applications,
              };
              const unknown = withoutModeOfAction.length > 0 || summary.applications > 0;
              return (
                <tr key={treatment}>
                  <th scope="row">
                    <strong>{treatment}</strong>
                    {name}
                    {experimental.has(treatment) && <em className={blocks.soft}> {text.experimental}</em>}
                  </th>
                  <td>{compareText.means.done(progress)}</td>
                  <td className={blocks.wide}>
                    {modesOfAction.length > 0
                      ? modesOfAction.join(', ')
                      : unknown
                        ? text.unknownModes
                        : compareText.none}
                  </td>
                  <td className={blocks.number}>
                    {costPerHectare === null ? compareText.none : costPerHectare.toFixed(2)}
                    {costPerHectare !== null && withoutCost.length > 0 && (
                      <span className={blocks.soft}> {text.withoutCost(withoutCost)}</span>
                    )}
                  </td>
                  <td className={`${blocks.number} ${styles.strong}`}>
                    {own?.mean === null || own === undefined
                      ? compareText.none
                      : own.mean.toFixed(words.decimals) + words.unit}
                  </td>
                  <td className={styles.letters}>{own?.letters ?? compareText.none}</td>
                </tr>
              );
            })}
          </tbody>
        </ScrolledTable>
        <Link className={styles.link} href="/plan/applications">
          {text.plan}
        </Link>
      </section>
      {means && date !== null && costs && (
        <CostAgainstCover
          title={text.chart(words.name)}
          fileName={`${plan.trial.code}-cost`}
          headingLevel={2}
          quantity={quantityOf(words)}
          currency={text.currency}
          ratingDate={date}
          programmes={means.map((mean) => ({
            ...mean,
            costPerHectare: costOf(mean.treatment, summaries),
          }))}
          intervalPercent={confidencePercent(declared.alpha)}
          experimental={isExperimental(plan)}
        />
      )}
      {!costs && <p className={blocks.soft}>{text.noCost}</p>}
    </div>
  );
}

/** Of a treatment without any application: nothing. Null where the cost of a product is not known. */
function costOf(treatment: string, summaries: ReturnType<typeof treatmentSummaries>): number | null {
  const own = summaries.find((summary) => String(summary.treatment) === treatment);
  if (!own) return null;
  if (own.applications === 0) return 0;
  return own.withoutCost.length > 0 ? null : own.costPerHectare;
}
