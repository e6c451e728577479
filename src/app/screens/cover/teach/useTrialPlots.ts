import { useEffect, useState } from 'react';
import { plotKey } from '../../../../core/trial/plot.ts';
import { useSession } from '../../../session/useSession.tsx';

/** What the trial says of a plot. */
export interface TrialPlot {
  readonly block: string | null;
  /** Its name. */
  readonly treatment: string;
}

/** Plots of the trial by their key (core/trial/plot.ts); null without a trial, and until it is read. */
export function useTrialPlots(): ReadonlyMap<string, TrialPlot> | null {
  const session = useSession();
  const [plots, setPlots] = useState<ReadonlyMap<string, TrialPlot> | null>(null);
  useEffect(() => {
    let left = false;
    session.openTrial().then(
      ({ trial }) => {
        const state = trial.get();
        if (left || state.state !== 'open') return;
        const { treatments, plots: planned } = state.plan;
        const nameOf = new Map(treatments.map(({ number, name }) => [number, name]));
        setPlots(
          new Map(
            planned.map(({ plot, block, treatment }) => [
              plotKey(plot),
              {
                block: block === null ? null : String(block),
                treatment: nameOf.get(treatment) ?? String(treatment),
              },
            ]),
          ),
        );
      },
      (error) => console.error('the trial cannot be opened', error),
    );
    return () => {
      left = true;
    };
  }, [session]);
  return plots;
}
