import { useEffect, useRef } from 'react';
import type { PhotographedStop } from '../../session/fieldDay.ts';

/** Milliseconds on, off, on: short for a good photo, long for one to be taken again. */
const BUZZ = { good: [60], usable: [60, 80, 60], retake: [300, 120, 300] } as const;

/** Tells the hand of each new verdict, where the phone can. */
export function useVerdictBuzz(stops: readonly PhotographedStop[]): void {
  const known = useRef<Set<string> | null>(null);
  useEffect(() => {
    const first = known.current === null;
    known.current ??= new Set();
    for (const { photo, verdict } of stops) {
      if (photo === null || verdict === null || known.current.has(photo)) continue;
      known.current.add(photo);
      // those that were known when the page was opened are no news
      if (!first) navigator.vibrate?.([...BUZZ[verdict]]);
    }
  }, [stops]);
}
