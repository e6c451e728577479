import { confidencePercent } from '../../../core/statistics/confidencePercent.ts';
import type { PercentControlTable } from '../../../core/statistics/percentControlTable.ts';
import type { TreatmentAnalysis } from '../../../core/statistics/treatmentAnalysis.ts';
import { compareText, type VariableWords } from '../../../core/text/compare.ts';
import { formatP, formatSignificant } from '../../../core/text/statistics.ts';
import { applicationsBy, isStillToCome } from '../../../core/trial/applicationsBy.ts';
import type { TrialPlan } from '../../../core/trial/trialPlan.ts';
import { chartTreatments, hasError } from '../../charts/trialMeans.ts';
import blocks from '../../components/blocks.module.css';
import styles from './CompareScreen.module.css';
import { ScrolledTable } from './ScrolledTable.tsx';

const text = compareText.means;

interface MeansTableProps {
  readonly title: string;
  readonly plan: TrialPlan;
  readonly words: VariableWords;
  readonly analysis: TreatmentAnalysis;
  readonly percentControl: PercentControlTable | null;
  readonly control: string | null;
  /** Day up to which applications are counted. */
  readonly day: string;
}

/** The treatments of one analysis: means with limits and letters, against the control, percent control. */
export function MeansTable(props: MeansTableProps) {
  const { title, plan, words, analysis, percentControl, control, day } = props;
  const { alpha, transform, leastSignificantDifference, honestlySignificantDifference } = analysis;
  const applications = applicationsBy(plan, day);
  const confidence = String(confidencePercent(alpha));
  const fixed = (value: number | null | undefined): string =>
    value === null || value === undefined ? compareText.none : plain(value, words.decimals);
  const between = (low: number | null | undefined, high: number | null | undefined): string =>
    low === null || low === undefined || high === null || high === undefined
      ? compareText.none
      : text.between(fixed(low), fixed(high));
  const shown = (value: number | null): string =>
    value === null ? compareText.none : formatSignificant(value);
  const withControl = control !== null;
  const onScale = transform === 'none';
  const known = hasError(analysis);
  return (
    <>
      <ScrolledTable title={title}>
        <thead>
          <tr>
            <th scope="col">{text.treatment}</th>
            <th scope="col">{text.applications}</th>
            <th scope="col" className={blocks.number}>
              {text.n}
            </th>
            <th scope="col" className={blocks.number}>
              {text.mean(words.scale)}
            </th>
            <th scope="col">{text.tukey}</th>
            <th scope="col">{text.lsd}</th>
            {onScale && (
              <th scope="col" className={blocks.number}>
                {text.standardError}
              </th>
            )}
            <th scope="col" className={blocks.number}>
              {text.limits(confidence)}
            </th>
            {withControl && onScale && (
              <th scope="col" className={blocks.number}>
                {text.difference}
              </th>
            )}
            {withControl && (
              <th scope="col" className={blocks.number}>
                {text.dunnett}
              </th>
            )}
            {percentControl && (
              <th scope="col" className={blocks.number}>
                {text.percentControl}
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {chartTreatments(plan).map(({ treatment, label }) => {
            const own = analysis.treatments.find((one) => one.treatment === treatment);
            const progress = applications.get(Number(treatment))!;
            const controlled = percentControl?.treatments.find((one) => one.treatment === treatment);
            const isControl = treatment === control;
            const { difference = null, p = null, low, high } = own?.dunnett ?? {};
            return (
              <tr key={treatment} className={isControl ? styles.control : undefined}>
                <th scope="row">
                  <strong>{treatment}</strong>
                  {label}
                </th>
                <td>{isStillToCome(progress) ? text.toCome : text.done(progress)}</td>
                <td className={blocks.number}>{own?.n ?? 0}</td>
                <td className={`${blocks.number} ${styles.strong}`}>{fixed(own?.mean)}</td>
                <td className={styles.letters}>{own?.lettersHsd ?? compareText.none}</td>
                <td className={styles.letters}>{own?.lettersLsd ?? compareText.none}</td>
                {onScale && (
                  <td className={blocks.number}>{known ? fixed(own?.standardError) : compareText.none}</td>
                )}
                <td className={blocks.number}>{known ? between(own?.low, own?.high) : compareText.none}</td>
                {withControl && onScale && (
                  <td className={blocks.number}>
                    {isControl
                      ? text.control
                      : difference === null
                        ? compareText.none
                        : `${signed(difference, words.decimals)}${known ? ` (${between(low, high)})` : ''}`}
                  </td>
                )}
                {withControl && (
                  <td className={blocks.number}>{p === null ? compareText.none : formatP(p)}</td>
                )}
                {percentControl && (
                  <td className={blocks.number}>
                    {controlled?.percentControl === null || controlled === undefined
                      ? compareText.none
                      : `${plain(controlled.percentControl, 0)}${
                          controlled.low === null || controlled.high === null
                            ? ''
                            : ` (${text.between(plain(controlled.low, 0), plain(controlled.high, 0))})`
                        }`}
                  </td>
                )}
              </tr>
            );
          })}
        </tbody>
      </ScrolledTable>
      <p className={blocks.hint}>
        {analysis.treatments.some(({ lettersHsd }) => lettersHsd !== null) && `${text.letters} `}
        {text.errors({
          cv:
            analysis.coefficientOfVariation === null
              ? compareText.none
              : `${plain(analysis.coefficientOfVariation, 1)} %`,
          sed: shown(analysis.standardErrorOfDifference),
          lsd: shown(leastSignificantDifference.value),
          hsd: shown(honestlySignificantDifference.value),
          alpha: String(alpha),
          df: analysis.errorDf,
        })}
      </p>
    </>
  );
}

/** No minus before a zero, and a true minus elsewhere. */
const plain = (value: number, decimals: number): string =>
  value
    .toFixed(decimals)
    .replace(/^-(0(\.0*)?)$/, '$1')
    .replace('-', '−');

const signed = (value: number, decimals: number): string => {
  const written = plain(value, decimals);
  return written.startsWith('−') || Number(written) === 0 ? written : `+${written}`;
};
