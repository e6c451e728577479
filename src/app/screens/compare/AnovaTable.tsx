import type { AnovaRow } from '../../../core/statistics/analysisOfVariance.ts';
import { compareText } from '../../../core/text/compare.ts';
import { formatP, formatSignificant } from '../../../core/text/statistics.ts';
import blocks from '../../components/blocks.module.css';
import { ScrolledTable } from './ScrolledTable.tsx';

const text = compareText.anova;

/** Sources of variation of an analysis. */
export function AnovaTable({ title, rows }: { title: string; rows: readonly AnovaRow[] }) {
  const number = (value: number | null) => (value === null ? compareText.none : formatSignificant(value));
  return (
    <ScrolledTable title={title}>
      <thead>
        <tr>
          <th scope="col">{text.source}</th>
          {[text.df, text.sumOfSquares, text.meanSquare, text.f, text.p].map((head) => (
            <th key={head} scope="col" className={blocks.number}>
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ source, df, sumOfSquares, meanSquare, f, p }) => (
          <tr key={source}>
            <th scope="row">{text.sources[source] ?? source}</th>
            <td className={blocks.number}>{df}</td>
            <td className={blocks.number}>{number(sumOfSquares)}</td>
            <td className={blocks.number}>{number(meanSquare)}</td>
            <td className={blocks.number}>{number(f)}</td>
            <td className={blocks.number}>{p === null ? compareText.none : formatP(p)}</td>
          </tr>
        ))}
      </tbody>
    </ScrolledTable>
  );
}
