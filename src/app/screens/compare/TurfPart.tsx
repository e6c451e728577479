import { Link } from 'wouter';
import type { ComparedVariable } from '../../../core/statistics/declaredAnalysis.ts';
import { comparedVariables, variableKey } from '../../../core/statistics/declaredAnalysis.ts';
import type { TreatmentMean } from '../../../core/statistics/treatmentAnalysis.ts';
import { compareText } from '../../../core/text/compare.ts';
import { formatDay } from '../../../core/text/format.ts';
import { formatP } from '../../../core/text/statistics.ts';
import { chartTreatments } from '../../charts/trialMeans.ts';
import blocks from '../../components/blocks.module.css';
import { SelectField } from '../../components/SelectField.tsx';
import styles from './CompareScreen.module.css';
import { comparisonOf, wordsOf } from './comparedTrial.ts';
import type { PartProps } from './partProps.ts';
import { ScrolledTable } from './ScrolledTable.tsx';
import { useWanted } from './useWanted.ts';

const text = compareText.turf;

/** Cover of the turf, bare ground, what was rated, and colour: each against the control on one date. */
export function TurfPart({ compared, shown }: PartProps) {
  const { plan, declared } = compared;
  const variables = comparedVariables(plan).filter((variable) =>
    isOfTurf(variable, compared.declared.classes),
  );
  useWanted(compared, variables);
  const found = variables.map((variable) => comparisonOf(compared, variable));
  const dates = [...new Set(found.flatMap((one) => one?.dates ?? []))].sort();
  const date = shown.date !== null && dates.includes(shown.date) ? shown.date : (dates.at(-1) ?? null);
  const colour = found.find((one) => one?.variable.kind === 'colour') ?? null;
  const colours = colour?.observations.observations.length ?? 0;
  const columns = found.flatMap((one) => (one && one.dates.length > 0 ? [one] : []));
  return (
    <div className={blocks.sections}>
      <section className={blocks.section} aria-label={text.title}>
        <h2>{text.title}</h2>
        <p className={blocks.hint}>{text.sentence}</p>
        {date !== null && (
          <div className={styles.chosen}>
            <SelectField
              label={compareText.shown.date}
              value={date}
              choices={dates.map((day) => [day, formatDay(day)])}
              onChange={shown.setDate}
            />
          </div>
        )}
        {date === null ? (
          <p role="status">{compareText.working}</p>
        ) : (
          <ScrolledTable title={`${text.title}, ${formatDay(date)}`}>
            <thead>
              <tr>
                <th scope="col">{compareText.means.treatment}</th>
                {columns.map(({ variable }) => {
                  const { name, scale } = wordsOf(compared, variable);
                  return (
                    <th key={variableKey(variable)} scope="col" className={blocks.wide}>
                      {scale ? `${name}, ${scale}` : name}
                    </th>
                  );
                })}
              </tr>
            </thead>
            <tbody>
              {chartTreatments(plan).map(({ treatment, label }) => (
                <tr key={treatment}>
                  <th scope="row">
                    <strong>{treatment}</strong>
                    {label}
                  </th>
                  {columns.map(({ variable, byDate }) => {
                    const own = byDate
                      .get(date)
                      ?.analysis.treatments.find((one) => one.treatment === treatment);
                    const { decimals } = wordsOf(compared, variable);
                    return (
                      <td key={variableKey(variable)}>
                        <strong className={styles.strong}>
                          {own?.mean === null || own === undefined
                            ? compareText.none
                            : own.mean.toFixed(decimals)}
                        </strong>{' '}
                        <span className={blocks.soft}>{againstControl(own, declared.alpha)}</span>
                      </td>
                    );
                  })}
                </tr>
              ))}
            </tbody>
          </ScrolledTable>
        )}
        {colour && (
          <p className={blocks.hint}>
            {colours > 0
              ? `${text.colour} ${text.colourAcross(colour.observations.balanced, colours)}`
              : text.noColour}
          </p>
        )}
        {plan.ratedVariables.length === 0 && (
          <p className={blocks.hint}>
            {text.withoutRatings} <Link href="/plan/scores">{text.scores}</Link>
          </p>
        )}
      </section>
    </div>
  );
}

/** All but the weeds themselves. */
function isOfTurf(
  variable: ComparedVariable,
  classes: readonly { readonly id: string; readonly startRole: string | null }[],
): boolean {
  if (variable.kind === 'group') return false;
  if (variable.kind !== 'class') return true;
  return classes.find(({ id }) => id === variable.classId)?.startRole !== 'light-grass';
}

/** What Dunnett's test says; nothing for the control itself. */
function againstControl(own: TreatmentMean | undefined, alpha: number): string {
  const { difference = null, p = null } = own?.dunnett ?? {};
  if (difference === null || p === null) return '';
  if (!(p < alpha)) return `(${text.against(text.notShown, formatP(p))})`;
  return `(${text.against(difference < 0 ? text.lower : text.higher, formatP(p))})`;
}
