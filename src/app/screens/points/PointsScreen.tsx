import { useCallback, useMemo } from 'react';
import { pointsText } from '../../../core/text/pointsScreen.ts';
import blocks from '../../components/blocks.module.css';
import { Page } from '../../components/Page.tsx';
import { PartNav } from '../../components/PartNav.tsx';
import { usePreference } from '../../components/usePreference.ts';
import type { RatingDate } from '../../session/points/pointsState.ts';
import { openPoints, type Points } from '../../session/points.ts';
import { useObservable, usePart, useSession } from '../../session/useSession.tsx';
import { CallingPart } from './CallingPart.tsx';
import { CountPart } from './CountPart.tsx';
import { LayPart } from './LayPart.tsx';
import { ObserversPart } from './ObserversPart.tsx';
import { PointsProvider } from './pointsContext.tsx';
import { ResultsPart } from './ResultsPart.tsx';
import { TrainingPart } from './TrainingPart.tsx';
import { TurfPart } from './TurfPart.tsx';

const PARTS = {
  count: CountPart,
  plan: LayPart,
  results: ResultsPart,
  observers: ObserversPart,
  turf: TurfPart,
  training: TrainingPart,
} as const;
const NAMES = Object.keys(PARTS) as (keyof typeof PARTS)[];

const isText = (value: unknown): value is string => typeof value === 'string';

/** Counts at points: laying them, calling them, and what follows. */
export function PointsScreen({ params: { part } }: { params: { part?: string | undefined } }) {
  const points = usePart(useMemo(() => openPoints(), []));
  if (!points) {
    return (
      <p className={blocks.opening} role="status">
        {pointsText.opening}
      </p>
    );
  }
  return <OpenedPoints points={points} part={part ?? 'count'} />;
}

function OpenedPoints({ points, part }: { points: Points; part: string }) {
  const state = useObservable(points.state);
  const photos = useObservable(useSession().photos);
  const [observer, setObserver] = usePreference('points.observer', '', isText);
  const [wanted, setWanted] = usePreference('points.date', '', isText);
  const dates = useMemo(() => {
    const found = [...new Set(photos.map(({ ratingDate }) => ratingDate))];
    return found.sort((a, b) => (a === null ? 1 : b === null ? -1 : a < b ? -1 : 1));
  }, [photos]);
  const withPoints = new Set(state.sets.map(({ photoId }) => photoId));
  const counted = photos.find(({ id }) => withPoints.has(id));
  const date: RatingDate =
    dates.find((one) => one === wanted) ?? (counted ? counted.ratingDate : (dates[0] ?? null));
  const setDate = useCallback((next: RatingDate) => setWanted(next ?? ''), [setWanted]);
  const here = useMemo(
    () => ({ points, state, dates, date, setDate, observer, setObserver }),
    [points, state, dates, date, setDate, observer, setObserver],
  );
  if (part === 'call') {
    return (
      <PointsProvider value={here}>
        <CallingPart />
      </PointsProvider>
    );
  }
  const name = NAMES.find((one) => one === part) ?? 'count';
  const Part = PARTS[name];
  return (
    <PointsProvider value={here}>
      <Page title={pointsText.title} namedByTab>
        <PartNav
          label={pointsText.parts}
          parts={NAMES.map((one) => ({
            href: one === 'count' ? '/points' : `/points/${one}`,
            words: pointsText.part[one],
            current: one === name,
          }))}
        />
        <Part />
      </Page>
    </PointsProvider>
  );
}
