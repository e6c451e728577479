import { useMemo } from 'react';
import {
  lopsidedTeaching,
  strokesByTreatment,
  type TreatmentStrokes,
} from '../../../../core/classifier/strokesByTreatment.ts';
import { plotKey } from '../../../../core/trial/plot.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import type { TeachingState } from '../../../session/teaching.ts';
import type { TrialPlot } from './useTrialPlots.ts';

/** Strokes by treatment, and whether they are lopsided; null where no treatment is known. */
export function useTreatments(
  plots: ReadonlyMap<string, TrialPlot> | null,
  photos: readonly PhotoSummary[],
  strokes: TeachingState['strokes'],
) {
  return useMemo(() => {
    if (!plots) return null;
    const painted = photos.flatMap(({ id, plot }) => {
      const treatment = plot === null ? undefined : plots.get(plotKey(plot))?.treatment;
      return treatment === undefined ? [] : [{ treatment, strokes: strokes.get(id)?.length ?? 0 }];
    });
    const counts: readonly TreatmentStrokes[] = strokesByTreatment(painted);
    return counts.length > 1 ? { counts, warning: lopsidedTeaching(counts) } : null;
  }, [plots, photos, strokes]);
}
