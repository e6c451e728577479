import { useEffect, useState } from 'react';
import { framesAgainstPoints, planFrameCount } from '../../../core/point-grid/countPlan.ts';
import { plannedPoints, type SamplingDesign } from '../../../core/point-grid/samplingDesign.ts';
import { spacingAdvice } from '../../../core/point-grid/spacingAdvice.ts';
import { pointsNeeded } from '../../../core/statistics/proportions/pointsNeeded.ts';
import { framesAgainstPointsText, spacingAdviceText } from '../../../core/text/points.ts';
import { pointsText } from '../../../core/text/pointsScreen.ts';
import blocks from '../../components/blocks.module.css';
import { NumberField } from '../../components/NumberField.tsx';
import type { FrameSpread, RatingDate } from '../../session/points/pointsState.ts';
import { useObservable, useSession } from '../../session/useSession.tsx';
import styles from './PointsScreen.module.css';
import { usePoints } from './pointsContext.tsx';

const text = pointsText.plan;
/** Half-width of the interval that the planner asks points for, as an example: 5 percentage points. */
const EXAMPLE_HALF_WIDTH = 0.05;

interface CountPlannerProps {
  readonly design: SamplingDesign;
  readonly photoCount: number;
  /** Calls in all. */
  readonly total: number;
  readonly dates: readonly RatingDate[];
}

/** What a count of this size can show, and what would help more. */
export function CountPlanner({ design, photoCount, total, dates }: CountPlannerProps) {
  const { points, state } = usePoints();
  const photos = useObservable(useSession().photos);
  const [percent, setPercent] = useState(20);
  const [plantMm, setPlantMm] = useState(15);
  const [spread, setSpread] = useState<FrameSpread | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the counts so far tell how frames differ
  useEffect(() => {
    let current = true;
    points.frameSpread().then((next) => current && setSpread(next), console.error);
    return () => {
      current = false;
    };
  }, [points, state]);
  const cover = percent / 100;
  const count = plannedPoints(design);
  const plan = planFrameCount(cover, count);
  const sized = photos.find(({ ratingDate, frame }) => dates.includes(ratingDate) && frame?.sizeMm);
  const sizeMm = sized?.frame?.sizeMm;
  return (
    <aside className={styles.aside} aria-label={text.planner}>
      <h2>{text.planner}</h2>
      <NumberField
        label={text.expected}
        unit="%"
        value={percent}
        least={0}
        most={100}
        onChange={(value) => value !== null && setPercent(value)}
      />
      <p className={blocks.hint}>{text.confidence}</p>
      <dl className={styles.facts}>
        <div>
          <dt>{text.halfWidthLabel}</dt>
          <dd>{text.halfWidth(plan.halfWidth)}</dd>
          {cover > 0 && cover < 1 && (
            <dd className={blocks.hint}>
              {text.needed(pointsNeeded(cover, EXAMPLE_HALF_WIDTH, 0.95), 100 * EXAMPLE_HALF_WIDTH)}
            </dd>
          )}
        </div>
        <div>
          <dt>{text.smallest}</dt>
          <dd>{text.smallestValue(plan.smallestNoticeable)}</dd>
          <dd className={blocks.hint}>{text.smallestHint}</dd>
        </div>
        {photoCount > 0 && (
          <div>
            <dt>{text.calls}</dt>
            <dd>{text.callsValue(total, total / 60)}</dd>
          </div>
        )}
      </dl>
      <NumberField
        label={text.plant}
        unit="mm"
        value={plantMm}
        least={1}
        most={500}
        onChange={(value) => value !== null && setPlantMm(value)}
      />
      <p>{sizeMm ? spacingAdviceText(spacingAdvice(design, sizeMm, plantMm)) : text.noScale}</p>
      <p>{text.frames}</p>
      {spread && (
        <p>
          {text.spread(spread.className)}{' '}
          {framesAgainstPointsText(framesAgainstPoints(spread.framesPerPlot, count, spread))}
        </p>
      )}
    </aside>
  );
}
