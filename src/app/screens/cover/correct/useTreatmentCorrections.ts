import { useEffect, useMemo, useState } from 'react';
import { blindCodes } from '../../../../core/mask/blindCodes.ts';
import {
  correctionsByTreatment,
  type LopsidedWarning,
  lopsidedWarnings,
  type TreatmentCorrections,
} from '../../../../core/mask/correctionsByTreatment.ts';
import { correct } from '../../../../core/text/correct.ts';
import { plotKey } from '../../../../core/trial/plot.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import type { OpenTrial } from '../../../session/trialState.ts';
import { useSession } from '../../../session/useSession.tsx';

/** The trial; null while it is not open. */
function useOpenTrial(): OpenTrial | null {
  const session = useSession();
  const [trial, setTrial] = useState<OpenTrial | null>(null);
  useEffect(() => {
    let left = false;
    session.openTrial().then(
      (opened) => {
        const state = opened.trial.get();
        if (!left && state.state === 'open') setTrial(state);
      },
      (error) => console.error('the trial cannot be opened', error),
    );
    return () => {
      left = true;
    };
  }, [session]);
  return trial;
}

export interface TreatmentShares {
  readonly trialId: string;
  readonly treatments: readonly TreatmentCorrections[];
  readonly warnings: readonly LopsidedWarning[];
}

/**
 * How much hand work went into each treatment of a rating date; null where fewer than two treatments are known.
 *
 * @param shown whether treatments are named; else shuffled codes stand for them
 */
export function useTreatmentCorrections(
  photos: readonly PhotoSummary[],
  reviewed: ReadonlySet<string>,
  shown: boolean,
): TreatmentShares | null {
  const trial = useOpenTrial();
  const ratingDate = photos[0]?.ratingDate ?? null;
  return useMemo(() => {
    if (!trial) return null;
    const { treatments, plots } = trial.plan;
    const names = new Map(treatments.map(({ number, name }) => [number, name]));
    const codes = blindCodes(
      treatments.map(({ name }) => name),
      `${trial.id} ${ratingDate}`,
    );
    const treatmentOf = new Map(plots.map(({ plot, treatment }) => [plotKey(plot), names.get(treatment)]));
    const known = photos.flatMap(({ id, plot, figure, figures }) => {
      const name = plot === null ? undefined : treatmentOf.get(plotKey(plot));
      if (name === undefined || !figure) return [];
      const { corrected } = figures;
      const netChange = figure.cover.map(
        ({ coverFraction }, i) => (corrected?.cover[i]?.coverFraction ?? coverFraction) - coverFraction,
      );
      return [
        {
          treatment: shown ? name : correct.treatmentCode(codes.get(name)!),
          reviewed: reviewed.has(id),
          changedFraction: corrected?.changedFraction ?? 0,
          netChange,
        },
      ];
    });
    const sameClasses = known.filter(({ netChange }) => netChange.length === known[0]!.netChange.length);
    const byTreatment = correctionsByTreatment(sameClasses);
    if (byTreatment.length < 2) return null;
    // in the order of the codes or names, which tells nothing of the layout
    const sorted = [...byTreatment].sort((a, b) => (a.treatment < b.treatment ? -1 : 1));
    return { trialId: trial.id, treatments: sorted, warnings: lopsidedWarnings(sorted) };
  }, [trial, photos, reviewed, shown, ratingDate]);
}
