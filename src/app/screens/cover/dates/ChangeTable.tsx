import { useEffect, useState } from 'react';
import { LEAST_PATCH_CHANGE } from '../../../../core/frame/patchChange.ts';
import { patchGridOf } from '../../../../core/frame/patchCover.ts';
import { turnedCorners } from '../../../../core/geometry/turnedCorners.ts';
import { area as words } from '../../../../core/text/area.ts';
import { formatPercent } from '../../../../core/text/format.ts';
import blocks from '../../../components/blocks.module.css';
import { ClassSwatch } from '../../../components/ClassSwatch.tsx';
import { shortName } from '../../../components/shortName.ts';
import type { FixedPlaces, PlaceChange } from '../../../session/fixedPlaces.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import styles from './DatesScreen.module.css';

interface ChangeTableProps {
  readonly places: FixedPlaces;
  readonly before: PhotoSummary;
  readonly after: PhotoSummary;
  /** Quarters the later frame is turned by. */
  readonly quarters: number;
}

const points = (fraction: number) => (100 * fraction).toFixed(1);
const signed = (fraction: number) =>
  `${fraction > 0 ? '+' : fraction < 0 ? '−' : ''}${points(Math.abs(fraction))}`;

/** What changed between two dates of one place, by patches of the frame. */
export function ChangeTable({ places, before, after, quarters }: ChangeTableProps) {
  const [answer, setAnswer] = useState<PlaceChange | null>(null);
  const sizeMm = before.frame?.sizeMm ?? null;
  const grid = patchGridOf(sizeMm);
  const figuresOf = ({ figure, figures, work }: PhotoSummary) => [figure?.id, figures.corrected?.id, work];
  const key = JSON.stringify([figuresOf(before), figuresOf(after), quarters]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key says when the figures are others
  useEffect(() => {
    let dropped = false;
    setAnswer(null);
    const [p, q] = [before.frame, after.frame];
    if (p && q) {
      places
        .compare(
          { photo: before, corners: p.corners },
          { photo: after, corners: turnedCorners(q.corners, quarters) },
          grid,
        )
        .then((next) => {
          if (!dropped) setAnswer(next);
        })
        .catch((error) => {
          // a worker that was ended with its screen answers no more
          if (!dropped) console.error('two dates cannot be compared', error);
        });
    }
    return () => {
      dropped = true;
    };
  }, [places, key]);
  const classes = after.figure?.settings.classes ?? [];
  const text = words.dates;
  return (
    <section className={styles.change} aria-label={text.tableCaption}>
      <h2>{text.tableCaption}</h2>
      <p>
        <b>{text.scale(sizeMm && sizeMm[0] / grid.columns, grid.columns, grid.rows)}</b> {text.why}
        {answer?.state === 'done' && ` ${text.masks(answer.corrected.before, answer.corrected.after)}`}
      </p>
      {answer?.state !== 'done' ? (
        <p role="status">{waitingWords(answer)}</p>
      ) : answer.change.patchesCompared === 0 ? (
        <p role="status">{text.nothing}</p>
      ) : (
        <>
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than the screen is scrolled with the keyboard */}
          <section className={blocks.scroller} tabIndex={0} aria-label={text.tableName}>
            <table className={blocks.table}>
              <thead>
                <tr>
                  {[
                    text.className,
                    text.coverBefore,
                    text.coverAfter,
                    text.change,
                    text.up,
                    text.down,
                    text.same,
                    text.gain,
                    text.loss,
                  ].map((head) => (
                    <th
                      key={head}
                      scope="col"
                      className={head === text.className ? undefined : blocks.number}
                    >
                      {head}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {answer.change.classes.map((one) => {
                  const coverClass = classes[one.label - 1]!;
                  return (
                    <tr key={coverClass.id}>
                      <th scope="row">
                        <span className={styles.className}>
                          <ClassSwatch coverClass={coverClass} index={one.label - 1} small />
                          {shortName(coverClass.name)}
                        </span>
                      </th>
                      <td className={blocks.number}>{formatPercent(Math.min(1, one.coverFractionBefore))}</td>
                      <td className={blocks.number}>{formatPercent(Math.min(1, one.coverFractionAfter))}</td>
                      <td className={blocks.number}>
                        {signed(one.coverFractionAfter - one.coverFractionBefore)}
                      </td>
                      <td className={blocks.number}>{one.patchesUp}</td>
                      <td className={blocks.number}>{one.patchesDown}</td>
                      <td className={blocks.number}>{one.patchesSame}</td>
                      <td className={blocks.number}>{points(one.gainFraction)}</td>
                      <td className={blocks.number}>{points(one.lossFraction)}</td>
                    </tr>
                  );
                })}
              </tbody>
            </table>
          </section>
          <p className={blocks.hint}>
            {text.upDown(100 * LEAST_PATCH_CHANGE)}{' '}
            {answer.change.patchesLeftOut > 0 && text.leftOut(answer.change.patchesLeftOut)}
          </p>
        </>
      )}
    </section>
  );
}

function waitingWords(answer: PlaceChange | null): string {
  switch (answer?.state) {
    case 'waiting':
      return words.dates.waiting;
    case 'other-classes':
      return words.dates.otherClasses;
    default:
      return words.dates.working;
  }
}
