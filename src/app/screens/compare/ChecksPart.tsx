import { useEffect, useState } from 'react';
import type { PlotResidual } from '../../../core/statistics/plotResiduals.ts';
import { compareText } from '../../../core/text/compare.ts';
import { formatP, formatSignificant } from '../../../core/text/statistics.ts';
import { isExperimental } from '../../../core/trial/experimentalUse.ts';
import { NormalQuantiles, ResidualsAgainstFitted } from '../../charts/Residuals.tsx';
import { chartTreatments } from '../../charts/trialMeans.ts';
import blocks from '../../components/blocks.module.css';
import type { VariableComparison } from '../../session/comparison.ts';
import styles from './CompareScreen.module.css';
import { type ComparedTrial, comparisonOf, wordsOf } from './comparedTrial.ts';
import { NoteList } from './NoteList.tsx';
import { NoValues } from './NoValues.tsx';
import type { PartProps } from './partProps.ts';
import { ScrolledTable } from './ScrolledTable.tsx';
import { ShownFields } from './ShownFields.tsx';
import { shownDate, shownVariable } from './useDateShown.ts';
import { useWanted } from './useWanted.ts';

const text = compareText.checks;

/** What a reviewer looks at: residuals, the result with all plots, what was left out. */
export function ChecksPart({ compared, shown }: PartProps) {
  const variable = shownVariable(compared, shown);
  const excluded = compared.declared.exclusions.length > 0;
  useWanted(compared, [variable], excluded ? 'all' : 'as-declared');
  const comparison = comparisonOf(compared, variable);
  const date = shownDate(compared, variable, shown);
  return (
    <div className={blocks.sections}>
      <ShownFields compared={compared} shown={shown} />
      {comparison?.dates.length === 0 && <NoValues compared={compared} variable={variable} />}
      {comparison && date !== null && (
        <>
          <Residuals compared={compared} comparison={comparison} date={date} />
          <section className={blocks.section} aria-label={text.sensitivity}>
            <h2>{text.sensitivity}</h2>
            {excluded ? (
              <Sensitivity
                compared={compared}
                declared={comparison}
                all={comparisonOf(compared, variable, 'all')}
                date={date}
              />
            ) : (
              <p className={blocks.soft}>{text.noExclusions}</p>
            )}
          </section>
        </>
      )}
      {comparison && <DataChecks compared={compared} comparison={comparison} />}
    </div>
  );
}

interface OfDate {
  readonly compared: ComparedTrial;
  readonly comparison: VariableComparison;
  readonly date: string;
}

function Residuals({ compared, comparison, date }: OfDate) {
  const { plan } = compared;
  const { variable, options, byDate } = comparison;
  const analysis = byDate.get(date)?.analysis;
  const residuals = useResiduals(compared, comparison, date);
  const words = wordsOf(compared, variable);
  const shared = {
    scaleName: text.scale(words.name, options.transform ?? 'none'),
    treatments: chartTreatments(plan),
    residuals: residuals ?? [],
    experimental: isExperimental(plan),
    named: analysis?.residualChecks.largestResidual ? [analysis.residualChecks.largestResidual.plot] : [],
  };
  const spread = Math.sqrt(analysis?.meanSquareError ?? 0);
  return (
    <section className={blocks.section} aria-label={text.residuals}>
      <h2>{text.residuals}</h2>
      {shared.residuals.length === 0 ? (
        <p className={blocks.soft}>{residuals === null ? compareText.working : text.noResiduals}</p>
      ) : (
        <>
          <ul className={styles.notes}>
            {checkTexts(analysis?.residualChecks).map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
          <div className={styles.sideBySide}>
            <ResidualsAgainstFitted
              {...shared}
              title={text.fitted}
              fileName={`${plan.trial.code}-${date}-residuals`}
            />
            <NormalQuantiles
              {...shared}
              title={text.quantiles}
              fileName={`${plan.trial.code}-${date}-quantiles`}
              line={spread > 0 ? { intercept: 0, slope: spread } : null}
            />
          </div>
        </>
      )}
    </section>
  );
}

/** Null until they are there. */
function useResiduals({ part }: ComparedTrial, comparison: VariableComparison, date: string) {
  const [residuals, setResiduals] = useState<readonly PlotResidual[] | null>(null);
  const analysis = comparison.byDate.get(date);
  // biome-ignore lint/correctness/useExhaustiveDependencies: residuals belong to the analysis, which changes with its values
  useEffect(() => {
    if (!analysis) return;
    let left = false;
    part.residuals(comparison, date).then(
      (found) => {
        if (!left) setResiduals(found);
      },
      (error) => console.error('no residuals', error),
    );
    return () => {
      left = true;
    };
  }, [part, analysis]);
  return residuals;
}

type Checked = NonNullable<ReturnType<VariableComparison['byDate']['get']>>['analysis']['residualChecks'];

function checkTexts(checks: Checked | undefined): string[] {
  if (!checks) return [];
  const { shapiroWilk, equalVariance, largestResidual, nonAdditivity } = checks;
  return [
    ...(shapiroWilk ? [text.tests.normal(formatSignificant(shapiroWilk.w), formatP(shapiroWilk.p))] : []),
    ...(equalVariance ? [text.tests.equal(formatP(equalVariance.p))] : []),
    ...(largestResidual
      ? [
          text.tests.largest(
            largestResidual.plot,
            formatSignificant(largestResidual.studentized),
            formatP(Math.min(1, largestResidual.p)),
          ),
        ]
      : []),
    ...(nonAdditivity ? [text.tests.additive(formatP(nonAdditivity.p))] : []),
  ];
}

interface SensitivityProps {
  readonly compared: ComparedTrial;
  readonly declared: VariableComparison;
  readonly all: VariableComparison | null;
  readonly date: string;
}

function Sensitivity({ compared, declared, all, date }: SensitivityProps) {
  const [own, whole] = [declared.byDate.get(date)?.analysis, all?.byDate.get(date)?.analysis];
  if (!own || !whole) return <p role="status">{compareText.working}</p>;
  const { decimals } = wordsOf(compared, declared.variable);
  const of = (analysis: typeof own, treatment: string) =>
    analysis.treatments.find((one) => one.treatment === treatment);
  const rows = chartTreatments(compared.plan).map(({ treatment, label }) => ({
    treatment,
    label,
    pair: [of(own, treatment), of(whole, treatment)] as const,
  }));
  const changed = rows.filter(({ pair: [a, b] }) => a?.lettersHsd !== b?.lettersHsd).length;
  return (
    <>
      <p>{text.change(changed)}</p>
      <ScrolledTable title={text.sensitivity}>
        <thead>
          <tr>
            <th scope="col">{compareText.means.treatment}</th>
            {[text.asDeclared, text.all].map((name) => (
              <th key={name} scope="col" className={blocks.number}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ treatment, label, pair }) => (
            <tr key={treatment}>
              <th scope="row">
                <strong>{treatment}</strong>
                {label}
              </th>
              {pair.map((one, index) => (
                <td key={index === 0 ? text.asDeclared : text.all} className={blocks.number}>
                  {one?.mean === null || one === undefined
                    ? compareText.none
                    : `${one.mean.toFixed(decimals)} ${one.lettersHsd ?? ''} (n = ${one.n})`}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </ScrolledTable>
      <NoteList notes={whole.notes} />
    </>
  );
}

function DataChecks({ compared, comparison }: Omit<OfDate, 'date'>) {
  const { withoutPlot, withoutMethod } = comparison.observations;
  const { method } = compared.declared;
  const sentences = [
    ...(withoutPlot > 0 ? [text.withoutPlot(withoutPlot)] : []),
    ...(withoutMethod > 0 && method !== null ? [text.withoutMethod(withoutMethod, method)] : []),
  ];
  return (
    <section className={blocks.section} aria-label={text.data}>
      <h2>{text.data}</h2>
      {sentences.length === 0 ? (
        <p className={blocks.soft}>{text.complete}</p>
      ) : (
        <ul className={styles.notes}>
          {sentences.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
    </section>
  );
}
