import { useEffect, useMemo, useState } from 'react';
import {
  lopsidedTeaching,
  strokesByTreatment,
  type TreatmentStrokes,
} from '../../../../core/classifier/strokesByTreatment.ts';
import { plotKey } from '../../../../core/trial/plot.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import type { TeachingState } from '../../../session/teaching.ts';
import { useSession } from '../../../session/useSession.tsx';

/** Names of treatments by plot; null without a trial. */
function useTreatmentNames(): ReadonlyMap<string, string> | null {
  const session = useSession();
  const [names, setNames] = useState<ReadonlyMap<string, string> | null>(null);
  useEffect(() => {
    let left = false;
    session.openTrial().then(
      ({ trial }) => {
        const state = trial.get();
        if (left || state.state !== 'open') return;
        const { treatments, plots } = state.plan;
        const nameOf = new Map(treatments.map(({ number, name }) => [number, name]));
        setNames(
          new Map(
            plots.map(({ plot, treatment }) => [plotKey(plot), nameOf.get(treatment) ?? String(treatment)]),
          ),
        );
      },
      (error) => console.error('the trial cannot be opened', error),
    );
    return () => {
      left = true;
    };
  }, [session]);
  return names;
}

/** Strokes by treatment, and whether they are lopsided; null where no treatment is known. */
export function useTreatments(photos: readonly PhotoSummary[], strokes: TeachingState['strokes']) {
  const names = useTreatmentNames();
  return useMemo(() => {
    if (!names) return null;
    const painted = photos.flatMap(({ id, plot }) => {
      const treatment = plot === null ? undefined : names.get(plotKey(plot));
      return treatment === undefined ? [] : [{ treatment, strokes: strokes.get(id)?.length ?? 0 }];
    });
    const counts: readonly TreatmentStrokes[] = strokesByTreatment(painted);
    return counts.length > 1 ? { counts, warning: lopsidedTeaching(counts) } : null;
  }, [names, photos, strokes]);
}
