import { createContext, use } from 'react';
import type { PointsState, RatingDate } from '../../session/points/pointsState.ts';
import type { Points } from '../../session/points.ts';

/** What every part of the screen needs. */
export interface PointsOnScreen {
  readonly points: Points;
  readonly state: PointsState;
  /** Dates that have photos, in order; photos without a date come last. */
  readonly dates: readonly RatingDate[];
  readonly date: RatingDate;
  readonly setDate: (date: RatingDate) => void;
  /** As the person signs; empty before anybody has. */
  readonly observer: string;
  readonly setObserver: (observer: string) => void;
}

const Context = createContext<PointsOnScreen | null>(null);
export const PointsProvider = Context;

/** @throws TypeError outside the Points screen */
export function usePoints(): PointsOnScreen {
  const here = use(Context);
  if (!here) throw new TypeError('usePoints needs the Points screen above it');
  return here;
}
