import { useMemo } from 'react';
import { formatDay } from '../../../core/text/format.ts';
import { planText } from '../../../core/text/plan.ts';
import type { RatedVariable } from '../../../core/trial/rating.ts';
import { type ScoreCell, scoreBoard } from '../../../core/trial/scoreBoard.ts';
import blocks from '../../components/blocks.module.css';
import styles from './PhotosPart.module.css';
import { usePlan } from './planContext.tsx';

const text = planText.board;

interface ScoreBoardProps {
  readonly variable: RatedVariable;
  readonly plots: readonly string[];
  readonly ratingDates: readonly string[];
}

/** Which plots have been scored on which dates. No score is shown, so that it may be looked at before scoring. */
export function ScoreBoard({ variable, plots, ratingDates }: ScoreBoardProps) {
  const { trial } = usePlan();
  const cells = useMemo(
    () => scoreBoard(trial.scores, variable.id, plots, ratingDates),
    [trial.scores, variable.id, plots, ratingDates],
  );
  const caption = text.scoresCaption(variable.name);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than the screen is scrolled with the keyboard
    <section className={blocks.scroller} tabIndex={0} aria-label={caption}>
      <table className={styles.board}>
        <caption className="visually-hidden">{caption}</caption>
        <thead>
          <tr>
            <th scope="col">{text.plot}</th>
            {ratingDates.map((date) => (
              <th scope="col" key={date}>
                {formatDay(date, 'short')}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {plots.map((plot, row) => (
            <tr key={plot}>
              <th scope="row">{plot}</th>
              {cells.slice(row * ratingDates.length, (row + 1) * ratingDates.length).map((cell) => (
                <td
                  key={cell.ratingDate}
                  className={styles.scored}
                  data-state={isScored(cell) ? 'there' : 'missing'}
                >
                  {wordsOf(cell)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

const isScored = ({ scores, notRateable }: ScoreCell) => scores + notRateable > 0;

function wordsOf({ scores, notRateable }: ScoreCell): string {
  if (scores > 0) return text.scores(scores);
  return notRateable > 0 ? text.notRateable : text.short.missing;
}
