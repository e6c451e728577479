import { betweenObservers, trainingResult } from '../../../core/point-grid/observerTraining.ts';
import { formatPercent } from '../../../core/text/format.ts';
import { pointsText, signedPoints } from '../../../core/text/pointsScreen.ts';
import { DEFAULT_CLASSES } from '../../../core/trial/defaultClasses.ts';
import blocks from '../../components/blocks.module.css';
import type { ObserverTestRecord } from '../../session/points.ts';
import { ClassName } from './ClassName.tsx';
import styles from './PointsScreen.module.css';
import { usePoints } from './pointsContext.tsx';

const text = pointsText.training;
const COUNT = DEFAULT_CLASSES.length;

/** How observers did against the truth, and how they agree with each other. */
export function TrainingResults() {
  const { tests } = usePoints().state;
  if (tests.length === 0) return <p className={styles.soft}>{text.none}</p>;
  const pairs = pairsOf(tests);
  return (
    <section className={blocks.section} aria-labelledby="points-training-results">
      <h2 id="points-training-results">{text.results}</h2>
      <div className={blocks.scroller}>
        <table className={blocks.table}>
          <caption>
            <span>{text.seesMore}</span>
          </caption>
          <thead>
            <tr>
              <th scope="col" rowSpan={2}>
                {pointsText.observer}
              </th>
              <th scope="col" rowSpan={2} className={blocks.number}>
                {text.right}
              </th>
              <th scope="col" rowSpan={2} className={blocks.number}>
                {text.kappa}
              </th>
              <th scope="colgroup" colSpan={COUNT}>
                {text.callBias}
              </th>
              <th scope="colgroup" colSpan={COUNT}>
                {text.rateBias}
              </th>
            </tr>
            <tr>
              {['calls', 'glance'].flatMap((what) =>
                DEFAULT_CLASSES.map((coverClass, index) => (
                  <th key={`${what} ${coverClass.id}`} scope="col" className={blocks.number}>
                    <ClassName coverClass={coverClass} index={index} />
                  </th>
                )),
              )}
            </tr>
          </thead>
          <tbody>
            {tests.toReversed().map(({ id, observer, round, pictures }) => {
              const { calls, ratings } = trainingResult(pictures, COUNT);
              const kappa = calls.kappa;
              return (
                <tr key={id}>
                  <th scope="row">{text.round(observer, round)}</th>
                  <td className={blocks.number}>
                    {kappa ? `${formatPercent(kappa.observedAgreement)} %` : '–'}
                  </td>
                  <td className={blocks.number}>
                    {kappa?.kappa == null ? '–' : kappa.kappa.toFixed(2)}
                    {kappa?.standardError != null && <small>± {kappa.standardError.toFixed(2)}</small>}
                  </td>
                  {[...calls.classes, ...ratings].map(({ bias, limits }, index) => (
                    // biome-ignore lint/suspicious/noArrayIndexKey: columns keep their places
                    <td key={index} className={blocks.number}>
                      {bias === null ? '–' : signedPoints(bias)}
                      {limits && (
                        <small>
                          {signedPoints(limits.limits[0])} to {signedPoints(limits.limits[1])}
                        </small>
                      )}
                    </td>
                  ))}
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      {pairs.length > 0 && (
        <>
          <h3>{text.between}</h3>
          <ul className={styles.notes}>
            {pairs.map(([first, second]) => {
              const { kappa, points } = betweenObservers(first.pictures, second.pictures, COUNT);
              return (
                <li key={`${first.id} ${second.id}`}>
                  {text.betweenKappa(
                    first.observer,
                    second.observer,
                    kappa?.kappa == null ? '–' : kappa.kappa.toFixed(2),
                    points,
                  )}
                </li>
              );
            })}
          </ul>
          <p className={blocks.hint}>{text.betweenHint}</p>
        </>
      )}
    </section>
  );
}

/** Of every two observers the newest round that both finished. */
function pairsOf(
  tests: readonly ObserverTestRecord[],
): (readonly [ObserverTestRecord, ObserverTestRecord])[] {
  const observers = [...new Set(tests.map(({ observer }) => observer))];
  const test = (observer: string, round: number) =>
    tests.find((one) => one.observer === observer && one.round === round);
  return observers.flatMap((first, index) =>
    observers.slice(index + 1).flatMap((second) => {
      const shared = tests
        .filter(({ observer, round }) => observer === first && test(second, round))
        .map(({ round }) => round);
      const round = Math.max(...shared);
      return shared.length > 0 ? [[test(first, round)!, test(second, round)!] as const] : [];
    }),
  );
}
