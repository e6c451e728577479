import type { PlotObservation } from './plotObservation.ts';

/** Two plots to be looked at side by side. */
export interface TypicalPair {
  readonly block: string | null;
  readonly control: PlotObservation;
  readonly treated: PlotObservation;
  readonly controlMean: number;
  readonly treatedMean: number;
}

/**
 * The untreated and the treated plot of one block that lie nearest the means of their treatments: the block where the two
 * distances together are smallest. A picture chosen by eye shows what one wishes to see; this one shows the middle.
 *
 * @param plots the observations of one date
 * @returns null where no block has both; without blocks the nearest plot of each
 */
export function typicalPair(
  plots: readonly PlotObservation[],
  control: string,
  treated: string,
): TypicalPair | null {
  const of = (treatment: string) => plots.filter((plot) => plot.treatment === treatment);
  const [controls, treateds] = [of(control), of(treated)];
  if (controls.length === 0 || treateds.length === 0) return null;
  const [controlMean, treatedMean] = [meanOf(controls), meanOf(treateds)];
  let nearest: TypicalPair | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const one of controls) {
    for (const other of treateds) {
      if (one.block !== other.block) continue;
      const distance = Math.abs(one.value - controlMean) + Math.abs(other.value - treatedMean);
      if (distance >= least) continue;
      least = distance;
      nearest = { block: one.block, control: one, treated: other, controlMean, treatedMean };
    }
  }
  return nearest;
}

const meanOf = (plots: readonly PlotObservation[]) =>
  plots.reduce((sum, { value }) => sum + value, 0) / plots.length;
