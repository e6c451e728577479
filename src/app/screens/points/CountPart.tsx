import { useState } from 'react';
import { useLocation } from 'wouter';
import { observersOf } from '../../../core/point-grid/countedPhoto.ts';
import { plannedPoints } from '../../../core/point-grid/samplingDesign.ts';
import { samplingDesignText } from '../../../core/text/points.ts';
import { pointsText } from '../../../core/text/pointsScreen.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { FormField } from '../../components/FormField.tsx';
import { Notice } from '../../components/Notice.tsx';
import styles from './PointsScreen.module.css';
import { usePoints } from './pointsContext.tsx';
import { useCounted } from './useCounted.ts';
import { WhichDate } from './WhichDate.tsx';

const text = pointsText.count;

/** Where the count of a date stands, and the way to go on with it. */
export function CountPart() {
  const { points, state, date, observer, setObserver } = usePoints();
  const counted = useCounted();
  const [, navigate] = useLocation();
  const [asked, setAsked] = useState(false);
  const [said, setSaid] = useState('');
  if (counted === null) return null;
  const name = observer.trim();
  const own = points.toCall(counted, name);
  const left = own.reduce((sum, photo) => sum + photo.left, 0);
  const observers = observersOf(counted);
  const hasBegun = observers.includes(name);
  const start = () => {
    if (name === '') return setAsked(true);
    setObserver(name);
    navigate('/points/call');
  };
  return (
    <div className={blocks.sections}>
      <section className={blocks.section} aria-label={pointsText.part.count}>
        <div className={blocks.fields}>
          <WhichDate />
          {counted.length > 0 && (
            <FormField
              label={pointsText.observer}
              value={observer}
              longest={60}
              onChange={(next) => {
                setAsked(false);
                setObserver(next);
              }}
              hint={pointsText.observerHint}
              problem={asked ? pointsText.noObserver : null}
            />
          )}
        </div>
        {counted.length === 0 ? (
          <div className={styles.empty}>
            <p className={blocks.lead}>{text.none}</p>
            <p className={styles.soft}>{text.noneHint}</p>
            <Button look="main" className={blocks.fit} onClick={() => navigate('/points/plan')}>
              {text.toPlan}
            </Button>
          </div>
        ) : (
          <div className={blocks.row}>
            {left > 0 || name === '' ? (
              <Button look="main" large onClick={start}>
                {hasBegun ? text.goOn : text.start}
              </Button>
            ) : (
              <>
                <strong>{text.finished}</strong>
                <Button look="main" onClick={() => navigate('/points/results')}>
                  {text.results}
                </Button>
              </>
            )}
          </div>
        )}
        <Outside />
        <Progress />
      </section>
      {state.plans
        .filter(({ ratingDate }) => ratingDate === date)
        .map((plan) => {
          const photoCount = state.sets.filter(({ planId }) => planId === plan.id).length;
          const total = state.sets
            .filter(({ planId }) => planId === plan.id)
            .reduce((sum, { set }) => sum + set.points.length, 0);
          const ids = new Set(state.sets.filter(({ planId }) => planId === plan.id).map(({ id }) => id));
          const isFree = !state.calls.some(({ pointSetId }) => ids.has(pointSetId));
          const { withStrokes, inReviewQueue } = plan.leftOut;
          const leftOut = [
            ...(withStrokes > 0 ? [text.withStrokes(withStrokes)] : []),
            ...(inReviewQueue > 0 ? [text.inQueue(inReviewQueue)] : []),
          ];
          return (
            <section key={plan.id} className={blocks.section}>
              <h2>{samplingDesignText(plan.design)}</h2>
              <p className={styles.soft}>
                {text.plan(photoCount, plannedPoints(plan.design), total)}{' '}
                {plan.photosPerTreatment === null ? text.everyPhoto : text.sampled(plan.drawnFrom, leftOut)}{' '}
                {text.seed(plan.seed)}
              </p>
              {isFree && (
                <div className={blocks.row}>
                  <Button
                    onClick={async () => {
                      await points.removePlan(plan.id, name || null);
                      setSaid(text.removed);
                    }}
                  >
                    {text.remove}
                  </Button>
                  <span className={styles.soft}>{text.removeHint}</span>
                </div>
              )}
            </section>
          );
        })}
      <p className="visually-hidden" role="status">
        {said}
      </p>
    </div>
  );
}

/** How far each observer has come. */
function Progress() {
  const { points } = usePoints();
  const counted = useCounted();
  if (!counted || counted.length === 0) return null;
  const all = counted.reduce(
    (sum, { places }) => sum + places.filter(({ isOutside }) => !isOutside).length,
    0,
  );
  const observers = observersOf(counted);
  if (observers.length === 0) return <p className={styles.soft}>{text.nobody}</p>;
  return (
    <ul className={styles.progress} aria-label={text.byWhom}>
      {observers.map((observer) => {
        const left = points.toCall(counted, observer).reduce((sum, photo) => sum + photo.left, 0);
        return (
          <li key={observer}>
            <strong>{observer}</strong>
            <progress max={all} value={all - left} aria-label={observer} />
            <span>{text.progress(all - left, all)}</span>
          </li>
        );
      })}
    </ul>
  );
}

/** Points that no longer count, with the way out. */
function Outside() {
  const { points, observer } = usePoints();
  const counted = useCounted() ?? [];
  const moved = counted.filter(({ places }) => places.some(({ isOutside }) => isOutside));
  const outside = moved.reduce(
    (sum, { places }) => sum + places.filter(({ isOutside }) => isOutside).length,
    0,
  );
  const otherRule = counted.reduce((sum, photo) => sum + photo.otherRuleCalls, 0);
  const replace = async () => {
    for (const photo of moved) await points.replaceOutside(photo, observer.trim() || null);
  };
  return (
    <>
      {outside > 0 && (
        <Notice>
          <p>{text.outside(outside, moved.length)}</p>
          <Button onClick={() => void replace()}>{text.replace}</Button>
        </Notice>
      )}
      {otherRule > 0 && (
        <Notice>
          <p>{text.otherRule(otherRule)}</p>
        </Notice>
      )}
    </>
  );
}
