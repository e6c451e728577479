import type { RatedObservation } from '../../../core/statistics/compareTrial.ts';
import { treatmentCodes } from '../../../core/statistics/treatmentCodes.ts';
import { compareText } from '../../../core/text/compare.ts';
import { formatDay } from '../../../core/text/format.ts';
import blocks from '../../components/blocks.module.css';
import type { OpenTrial } from '../../session/trialState.ts';
import { ScrolledTable } from './ScrolledTable.tsx';

const text = compareText.declare;

interface CodedPlotsProps {
  readonly trial: OpenTrial;
  readonly there: readonly RatedObservation[];
  readonly dates: readonly string[];
}

/** How many plots have a value, treatments under codes: enough to plan by, too little to choose by. */
export function CodedPlots({ trial, there, dates }: CodedPlotsProps) {
  const { plan, id } = trial;
  const codes = treatmentCodes(
    plan.treatments.map(({ number }) => number),
    id,
  );
  const coded = [...codes].sort(([, a], [, b]) => (a < b ? -1 : 1));
  return (
    <section className={blocks.section} aria-label={text.there}>
      <h2>{text.there}</h2>
      <p className={blocks.hint}>{text.thereSentence}</p>
      <ScrolledTable title={text.there}>
        <thead>
          <tr>
            <th scope="col">{text.code}</th>
            {dates.map((day) => (
              <th key={day} scope="col" className={blocks.number}>
                {formatDay(day, 'short')}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {coded.map(([treatment, code]) => {
            const all = plan.plots.filter((plot) => plot.treatment === treatment).length;
            const own = there.filter((plot) => plot.treatment === String(treatment));
            return (
              <tr key={code}>
                <th scope="row">{code}</th>
                {dates.map((day) => (
                  <td key={day} className={blocks.number}>
                    {text.plots(own.filter(({ ratingDate }) => ratingDate === day).length, all)}
                  </td>
                ))}
              </tr>
            );
          })}
        </tbody>
      </ScrolledTable>
    </section>
  );
}
