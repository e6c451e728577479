import { useEffect, useState } from 'react';
import type { CountedPhoto } from '../../../core/point-grid/countedPhoto.ts';
import type { DateFigures } from '../../session/points/pointsState.ts';
import { useObservable, useSession } from '../../session/useSession.tsx';
import { usePoints } from './pointsContext.tsx';

/** The photos of the date on screen that have points, kept up to date; null before they are read. */
export function useCounted(): readonly CountedPhoto[] | null {
  const { points, state, date } = usePoints();
  const photos = useObservable(useSession().photos);
  const [counted, setCounted] = useState<readonly CountedPhoto[] | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: calls and frames change what is counted
  useEffect(() => {
    let current = true;
    points.counted(date).then((next) => current && setCounted(next), console.error);
    return () => {
      current = false;
    };
  }, [points, state, date, photos]);
  return counted?.every(({ ratingDate }) => ratingDate === date) ? counted : null;
}

/** What one observer's points make of the date on screen; null before it is worked out. */
export function useFigures(observer: string): DateFigures | null {
  const { points, state, date } = usePoints();
  const photos = useObservable(useSession().photos);
  const key = `${date} ${observer}`;
  const [figures, setFigures] = useState<{ readonly key: string; readonly made: DateFigures } | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: calls, frames and masks change the figures
  useEffect(() => {
    let current = true;
    points.figures(date, observer).then((made) => current && setFigures({ key, made }), console.error);
    return () => {
      current = false;
    };
  }, [points, state, date, observer, photos]);
  return figures?.key === key ? figures.made : null;
}
