import type { PointEstimate } from '../../../core/point-grid/pointEstimate.ts';
import { formatCount, formatPercent } from '../../../core/text/format.ts';
import { belowText, estimateNoteText } from '../../../core/text/points.ts';
import { intervalText, pointsText } from '../../../core/text/pointsScreen.ts';
import type { CoverClass } from '../../../core/trial/coverClass.ts';
import { groupBy } from '../../../core/trial/groupBy.ts';
import blocks from '../../components/blocks.module.css';
import { ClassName } from './ClassName.tsx';
import styles from './PointsScreen.module.css';

const text = pointsText.results;

/** An estimate with what it is about in short. */
export interface NamedEstimate {
  readonly name: string;
  readonly estimate: PointEstimate;
}

interface EstimateTableProps {
  readonly caption: string;
  readonly what: string;
  readonly classes: readonly CoverClass[];
  readonly estimates: readonly NamedEstimate[];
  /** Intervals that hold for all classes together, instead of one by one. */
  readonly together: boolean;
}

/** Cover from points with its interval, a row each. */
export function EstimateTable({ caption, what, classes, estimates, together }: EstimateTableProps) {
  const remarks = groupBy(
    estimates.flatMap(({ name, estimate }) =>
      estimate.notes.map((note) => ({ name, sentence: estimateNoteText(note) })),
    ),
    ({ sentence }) => sentence,
  );
  return (
    <>
      <div className={blocks.scroller}>
        <table className={blocks.table}>
          <caption>
            <span>{caption}</span>
          </caption>
          <thead>
            <tr>
              <th scope="col">{what}</th>
              <th scope="col" className={blocks.number}>
                {text.pointsWord}
              </th>
              {classes.map((coverClass, index) => (
                <th key={coverClass.id} scope="col" className={blocks.number}>
                  <ClassName coverClass={coverClass} index={index} />
                </th>
              ))}
              <th scope="col" className={blocks.number}>
                {text.indeterminate}
              </th>
            </tr>
          </thead>
          <tbody>
            {estimates.map(({ name, estimate }) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td className={blocks.number}>{formatCount(estimate.points)}</td>
                {estimate.classes.map((own, index) => {
                  const interval = together ? own.simultaneous : own.interval;
                  return (
                    <td key={classes[index]!.id} className={blocks.number}>
                      {own.coverFraction === null
                        ? '–'
                        : own.belowFraction !== null
                          ? belowText(own.belowFraction)
                          : `${formatPercent(own.coverFraction)} %`}
                      <small>
                        {own.belowFraction !== null && !together
                          ? ''
                          : interval
                            ? intervalText(interval)
                            : own.coverFraction === null
                              ? ''
                              : text.noInterval}
                      </small>
                      {own.ifIndeterminate && <small>{text.ifIndeterminate(own.ifIndeterminate)}</small>}
                    </td>
                  );
                })}
                <td className={blocks.number}>{formatCount(estimate.indeterminate)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {remarks.size > 0 && (
        <ul className={styles.notes}>
          {[...remarks].map(([sentence, own]) => (
            <li key={sentence} className={blocks.hint}>
              {text.remarks(
                own.map(({ name }) => name),
                sentence,
              )}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
