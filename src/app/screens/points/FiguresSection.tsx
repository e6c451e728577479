import { useState } from 'react';
import { useLocation } from 'wouter';
import { pointsText } from '../../../core/text/pointsScreen.ts';
import { groupBy } from '../../../core/trial/groupBy.ts';
import { plotKey } from '../../../core/trial/plot.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import type { DateFigures } from '../../session/points/pointsState.ts';
import { useObservable, useSession } from '../../session/useSession.tsx';
import styles from './PointsScreen.module.css';
import { usePoints } from './pointsContext.tsx';

const text = pointsText.results;
type Method = keyof typeof text.methods;
const METHODS = Object.keys(text.methods) as Method[];

interface SectionProps {
  readonly figures: DateFigures;
  readonly observer: string;
}

/** Which method has a figure for every plot of the date, and the way to keep those that points make. */
export function FiguresSection({ figures, observer }: SectionProps) {
  const { points, state, date } = usePoints();
  const summaries = useObservable(useSession().photos);
  const [, navigate] = useLocation();
  const [said, setSaid] = useState('');
  const [busy, setBusy] = useState(false);
  const ofDate = summaries.filter(({ ratingDate, plot }) => ratingDate === date && plot !== null);
  const plots = groupBy(ofDate, ({ plot }) => plotKey(plot!));
  const { declared } = state;
  const keep = async () => {
    setBusy(true);
    const { points: byPoints, adjusted } = await points.keepFigures(date, observer, observer);
    setBusy(false);
    setSaid(text.kept(byPoints, adjusted));
  };
  return (
    <section className={blocks.section} aria-labelledby="points-figures">
      <h2 id="points-figures">{text.method}</h2>
      <p className={styles.soft}>{text.methodHint}</p>
      {plots.size > 0 && (
        <div className={blocks.scroller}>
          <table className={blocks.table}>
            <thead>
              <tr>
                <th scope="col">{text.methodWord}</th>
                <th scope="col">{text.plotsWith}</th>
              </tr>
            </thead>
            <tbody>
              {METHODS.map((method) => {
                const have = [...plots.values()].filter((own) =>
                  own.some((photo) => photo.figures[method] !== undefined),
                ).length;
                return (
                  <tr key={method}>
                    <th scope="row">{text.methods[method]}</th>
                    <td>{text.has(have, plots.size)}</td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </div>
      )}
      <div className={blocks.row}>
        <Button
          look="main"
          disabled={busy || figures.photos.length === 0}
          onClick={() => void keep().catch(console.error)}
        >
          {text.keep}
        </Button>
        <span className={blocks.hint}>{text.keepHint}</span>
      </div>
      <p role="status">{said}</p>
      {declared && (
        <p>
          {declared.method === null
            ? text.declaredOther(declared.by, declared.at)
            : text.declared(
                text.methods[declared.method as Method] ?? declared.method,
                declared.by,
                declared.at,
              )}
        </p>
      )}
      {!declared && state.trialId !== null && (
        <Button className={blocks.fit} onClick={() => navigate('/compare')}>
          {text.toCompare}
        </Button>
      )}
    </section>
  );
}
