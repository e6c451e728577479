import { useMemo } from 'react';
import {
  proposeTeachingPhotos,
  type TeachingProposal,
} from '../../../../core/classifier/proposeTeachingPhotos.ts';
import { plotKey } from '../../../../core/trial/plot.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import type { TeachingState } from '../../../session/teaching.ts';
import type { TrialPlot } from './useTrialPlots.ts';

/** Any would do: one and the same shows the same photos at every visit. */
const SEED = 1;

/** The photos to paint on first; null until the date's photos were all looked at, and where they are so few that all are. */
export function useProposal(
  plots: ReadonlyMap<string, TrialPlot> | null,
  photos: readonly PhotoSummary[],
  { looks, strip }: Pick<TeachingState, 'looks' | 'strip'>,
): TeachingProposal | null {
  const lookedAt = photos.every(({ id }) => looks.has(id) || strip.get(id) === null);
  return useMemo(() => {
    if (!lookedAt) return null;
    const candidates = photos.flatMap(({ id, plot }) => {
      const look = looks.get(id);
      const place = plot === null ? undefined : plots?.get(plotKey(plot));
      const { block = null, treatment = null } = place ?? {};
      return look ? [{ photoId: id, block, treatment, look }] : [];
    });
    const proposal = proposeTeachingPhotos(candidates, SEED);
    return proposal.photoIds.length < candidates.length ? proposal : null;
  }, [lookedAt, photos, plots, looks]);
}
