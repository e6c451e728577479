import { median } from '../statistics/median.ts';
/**
 * Where on its walk each photo was taken: a hidden Markov model of a person who walks the plots in order and takes a photo at
 * each place of the frame, now and then takes one again, leaves one out, goes back, or photographs something else.
 *
 * Three stories are weighed against each other: a tidy walk in order, an untidy one, and photos in no order at all, where
 * only what the photo itself says counts. The answer is the posterior probability of every place for every photo (forward-backward).
 *
 * The constants are the project's own judgement of how people walk, no source; tests/core/trial/assignPhotos.test.ts measures
 * what comes of them on made-up batches that were not used to choose them.
 */
export interface WalkPhoto {
  /** Seconds from the photo before; null where unknown. */
  readonly gapS: number | null;
  /** Indexes of plots whose labels are in the photo; 0, 1 or more. */
  readonly labelPlots: readonly number[];
  /** Index of the plot in its file name. */
  readonly namePlot: number | null;
  /** Place by label or name, 1..; null where neither says. */
  readonly place: number | null;
  /** A label of another trial is in the photo. */
  readonly foreign: boolean;
}

export interface WalkPosterior {
  /** Probability of each slot, row-major: index = photo * slots + slot; slot = plot * placesPerPlot + place - 1. */
  readonly slotProbability: Float64Array;
  /** Probability that the photo shows no plot of the trial, one for each photo. */
  readonly noPlotProbability: Float64Array;
  /** Probability that the photos were taken in order, tidily or not. */
  readonly orderProbability: number;
}

/** How a step from one photo to the next goes, when walking in order. The chances add up to 1 or a little less. */
interface Stepping {
  readonly next: number;
  readonly again: number;
  /** Slots left out; each further one less likely by `FADE`. */
  readonly skip: number;
  /** Back to a slot before; each further one less likely by `FADE`. */
  readonly back: number;
  /** To any slot, shared by all. */
  readonly anywhere: number;
  /** From the last slot to the first: another round. */
  readonly round: number;
  /** A photo of something else. */
  readonly elsewhere: number;
  /** The walk begins at the first slot, or a few later where photos are missing, or anywhere; and ends likewise. */
  readonly ends: { readonly there: number; readonly near: number; readonly anywhere: number };
}

/** One photo at each place, now and then a second one right after. */
const TIDY: Stepping = {
  next: 0.97,
  again: 0.02,
  skip: 2e-4,
  back: 2e-4,
  anywhere: 1e-5,
  round: 1e-3,
  elsewhere: 2e-4,
  ends: { there: 0.97, near: 0.01, anywhere: 0.02 },
};

const UNTIDY: Stepping = {
  next: 0.935,
  again: 0.03,
  skip: 0.005,
  back: 0.004,
  anywhere: 0.002,
  round: 0.01,
  elsewhere: 0.015,
  ends: { there: 0.85, near: 0.08, anywhere: 0.07 },
};

const FADE = 0.35;
const FARTHEST = 6;
/** After a photo of something else, another one of that kind. */
const ELSEWHERE_AGAIN = 0.4;

/** How likely each story is before the photos are looked at. */
const STORIES = { tidy: 0.75, untidy: 0.2, withoutOrder: 0.05 } as const;

/** A label or name of another plot than the one in the frame: a neighbour's label in view, a slip in a name. */
const WRONG_LABEL = 2e-4;
const WRONG_NAME = 2e-4;
/** A photo of a label alone, with no plot in the frame. */
const LABEL_ALONE = 1e-4;
const FOREIGN_ON_PLOT = 1e-6;
const NO_PLOT_WITHOUT_ORDER = 0.03;

/** Log of a gap over the usual one. */
const QUICKER_THAN_WALKING = -0.6;

/** Density of the log of a gap over the usual gap, for each kind of step. */
interface GapDensity {
  readonly next: number;
  readonly again: number;
  readonly skip: number;
  readonly other: number;
}

/**
 * @param plots number of plots on the walk, in walking order
 * @param useOrder false where the photos' order says nothing
 */
export function walkPosterior(
  photos: readonly WalkPhoto[],
  plots: number,
  placesPerPlot: number,
  useOrder: boolean,
): WalkPosterior {
  const slots = plots * placesPerPlot;
  const count = photos.length;
  const labelled = photos.filter(({ labelPlots }) => labelPlots.length > 0).length;
  const labelsRead = (labelled + 1) / (count + 2);
  const emissions = photos.map((photo) => emissionOf(photo, plots, placesPerPlot, labelsRead));
  const gaps = gapDensities(photos.map(({ gapS }) => gapS));
  const free = withoutOrder(emissions, gaps, slots);
  if (!useOrder) return { ...free.posterior, orderProbability: 0 };
  const stories = [
    { prior: STORIES.tidy, story: inOrder(emissions, gaps, slots, TIDY) },
    { prior: STORIES.untidy, story: inOrder(emissions, gaps, slots, UNTIDY) },
    { prior: STORIES.withoutOrder, story: free },
  ];
  const logWeights = stories.map(({ prior, story }) => Math.log(prior) + story.logLikelihood);
  const largest = Math.max(...logWeights);
  const weights = logWeights.map((weight) => Math.exp(weight - largest));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const slotProbability = new Float64Array(count * slots);
  const noPlotProbability = new Float64Array(count);
  stories.forEach(({ story }, index) => {
    const share = weights[index]! / total;
    addShare(slotProbability, story.posterior.slotProbability, share);
    addShare(noPlotProbability, story.posterior.noPlotProbability, share);
  });
  return { slotProbability, noPlotProbability, orderProbability: 1 - weights[2]! / total };
}

function addShare(out: Float64Array, part: Float64Array, share: number): void {
  for (let index = 0; index < out.length; index++) out[index]! += share * part[index]!;
}

interface Emission {
  /** Probability of what the photo says, for each slot. */
  readonly onSlot: Float64Array;
  readonly elsewhere: number;
}

/** @param labelsRead share of this walk's photos whose label was read: where most were, one without is likelier no plot */
function emissionOf(photo: WalkPhoto, plots: number, placesPerPlot: number, labelsRead: number): Emission {
  const { labelPlots, namePlot, place, foreign } = photo;
  const onSlot = new Float64Array(plots * placesPerPlot).fill(
    (foreign ? FOREIGN_ON_PLOT : 1) * (labelPlots.length > 0 ? labelsRead : 1 - labelsRead),
  );
  const wrongPlots = Math.max(1, plots - 1);
  const weigh = (plot: number, right: readonly number[], wrong: number) =>
    right.includes(plot) ? (1 - wrong) / right.length : wrong / wrongPlots;
  const says = labelPlots.length > 0 || namePlot !== null;
  if (says || place !== null) {
    for (let slot = 0; slot < onSlot.length; slot++) {
      const plot = Math.floor(slot / placesPerPlot);
      if (labelPlots.length > 0) onSlot[slot]! *= weigh(plot, labelPlots, WRONG_LABEL);
      if (namePlot !== null) onSlot[slot]! *= weigh(plot, [namePlot], WRONG_NAME);
      if (place !== null) onSlot[slot]! *= (slot % placesPerPlot) + 1 === place ? 1 : WRONG_LABEL;
    }
  }
  return { onSlot, elsewhere: says ? LABEL_ALONE / plots : 1 };
}

const normal = (x: number, mean: number, deviation: number) =>
  Math.exp(-0.5 * ((x - mean) / deviation) ** 2) / (deviation * Math.sqrt(2 * Math.PI));

/** Gaps against the usual gap of this walk, whose spread is taken from the walk itself within bounds. */
function gapDensities(gapsS: readonly (number | null)[]): GapDensity[] {
  const known = gapsS.flatMap((gap) => (gap === null ? [] : [Math.log(Math.max(gap, 0.5))]));
  const usual = known.length === 0 ? 0 : median(known);
  const spread = known.length === 0 ? 0 : 1.4826 * median(known.map((gap) => Math.abs(gap - usual)));
  const deviation = Math.min(0.5, Math.max(0.2, spread));
  return gapsS.map((gap) => {
    if (gap === null) return { next: 1, again: 1, skip: 1, other: 1 };
    const x = Math.log(Math.max(gap, 0.5)) - usual;
    const stroll = normal(x, 0.7, 1);
    // A pause makes a gap long; hardly anything makes the way to the next plot much shorter than it is.
    const pause = normal(x, 0.9, 0.8) * (x < QUICKER_THAN_WALKING ? 0.1 : 1);
    return {
      next: 0.9 * normal(x, 0, deviation) + 0.1 * pause,
      again: 0.95 * normal(x, Math.log(0.3), 0.7) + 0.05 * normal(x, 0, 1),
      skip: 0.8 * normal(x, Math.log(1.3), 0.5) + 0.2 * stroll,
      other: stroll,
    };
  });
}

type Story = {
  readonly posterior: Pick<WalkPosterior, 'slotProbability' | 'noPlotProbability'>;
  readonly logLikelihood: number;
};

/** Each photo for itself, every slot as likely as another before the photo is looked at. */
function withoutOrder(emissions: readonly Emission[], gaps: readonly GapDensity[], slots: number): Story {
  const slotProbability = new Float64Array(emissions.length * slots);
  const noPlotProbability = new Float64Array(emissions.length);
  let logLikelihood = 0;
  emissions.forEach(({ onSlot, elsewhere }, photo) => {
    const prior = (1 - NO_PLOT_WITHOUT_ORDER) / slots;
    let total = NO_PLOT_WITHOUT_ORDER * elsewhere;
    for (const value of onSlot) total += prior * value;
    for (let slot = 0; slot < slots; slot++)
      slotProbability[photo * slots + slot] = (prior * onSlot[slot]!) / total;
    noPlotProbability[photo] = (NO_PLOT_WITHOUT_ORDER * elsewhere) / total;
    logLikelihood += Math.log(total) + Math.log(gaps[photo]!.other);
  });
  return { posterior: { slotProbability, noPlotProbability }, logLikelihood };
}

/**
 * The walk in order. States: 0..slots-1 on a slot; slots..2*slots-1 something else was photographed, last slot = state - slots;
 * 2*slots something else before the first slot.
 */
function inOrder(
  emissions: readonly Emission[],
  gaps: readonly GapDensity[],
  slots: number,
  stepping: Stepping,
): Story {
  const count = emissions.length;
  const states = 2 * slots + 1;
  const forward = new Float64Array(count * states);
  let logLikelihood = 0;

  const emit = (photo: number, state: number) =>
    state < slots ? emissions[photo]!.onSlot[state]! : emissions[photo]!.elsewhere;

  for (let photo = 0; photo < count; photo++) {
    const here = forward.subarray(photo * states, (photo + 1) * states);
    if (photo === 0) startInto(here, slots, stepping);
    else step(forward.subarray((photo - 1) * states, photo * states), here, gaps[photo]!, slots, stepping);
    let total = 0;
    for (let state = 0; state < states; state++) {
      here[state]! *= emit(photo, state);
      total += here[state]!;
    }
    for (let state = 0; state < states; state++) here[state]! /= total;
    logLikelihood += Math.log(total);
  }

  const slotProbability = new Float64Array(count * slots);
  const noPlotProbability = new Float64Array(count);
  let backward: Float64Array = new Float64Array(states);
  endInto(backward, slots, stepping);
  for (let photo = count - 1; photo >= 0; photo--) {
    const here = forward.subarray(photo * states, (photo + 1) * states);
    let total = 0;
    for (let state = 0; state < states; state++) total += here[state]! * backward[state]!;
    if (photo === count - 1) logLikelihood += Math.log(total);
    let onSlots = 0;
    for (let slot = 0; slot < slots; slot++) {
      const probability = (here[slot]! * backward[slot]!) / total;
      slotProbability[photo * slots + slot] = probability;
      onSlots += probability;
    }
    noPlotProbability[photo] = Math.max(0, 1 - onSlots);
    if (photo === 0) break;
    for (let state = 0; state < states; state++) backward[state]! *= emit(photo, state);
    backward = stepBack(backward, gaps[photo]!, slots, stepping);
    const largest = backward.reduce((most, value) => Math.max(most, value), 0);
    for (let state = 0; state < states; state++) backward[state]! /= largest;
  }
  return { posterior: { slotProbability, noPlotProbability }, logLikelihood };
}

/** Probability of beginning so many slots after the first, or of ending so many before the last. */
function startOrEnd(away: number, slots: number, { ends }: Stepping): number {
  const near = away > 0 && away <= FARTHEST ? ends.near * (1 - FADE) * FADE ** (away - 1) : 0;
  return ends.anywhere / slots + near + (away === 0 ? ends.there : 0);
}

function startInto(here: Float64Array, slots: number, stepping: Stepping): void {
  for (let slot = 0; slot < slots; slot++) here[slot] = startOrEnd(slot, slots, stepping);
  here[2 * slots] = stepping.elsewhere;
}

function endInto(last: Float64Array, slots: number, stepping: Stepping): void {
  for (let slot = 0; slot < slots; slot++) {
    last[slot] = startOrEnd(slots - 1 - slot, slots, stepping);
    last[slots + slot] = last[slot]!;
  }
  last[2 * slots] = stepping.ends.anywhere / slots;
}

/** Weights of steps to slots at a distance, -farthest..farthest, for one gap. */
function reach(
  gap: GapDensity,
  stepping: Stepping,
): { readonly distance: number; readonly weight: number }[] {
  const steps = [
    { distance: 0, weight: stepping.again * gap.again },
    { distance: 1, weight: stepping.next * gap.next },
  ];
  for (let far = 1; far <= FARTHEST; far++) {
    const faded = FADE ** (far - 1);
    steps.push({ distance: far + 1, weight: stepping.skip * faded * gap.skip });
    steps.push({ distance: -far, weight: stepping.back * faded * gap.other });
  }
  return steps;
}

/** One photo on: probabilities of states after a step, before the photo is looked at. */
function step(
  before: Float64Array,
  after: Float64Array,
  gap: GapDensity,
  slots: number,
  stepping: Stepping,
): void {
  const steps = reach(gap, stepping);
  after.fill(0);
  let all = 0;
  for (let last = 0; last < slots; last++) {
    const [on, off] = [before[last]!, before[slots + last]!];
    const from = on + off * (1 - ELSEWHERE_AGAIN);
    all += from;
    for (const { distance, weight } of steps) {
      const slot = last + distance;
      if (slot >= 0 && slot < slots) after[slot]! += from * weight;
    }
    after[slots + last] = (on * stepping.elsewhere + off * ELSEWHERE_AGAIN) * gap.other;
  }
  const outside = before[2 * slots]!;
  after[2 * slots] = outside * ELSEWHERE_AGAIN * gap.other;
  const entering = outside * (1 - ELSEWHERE_AGAIN) * gap.other;
  const lastFrom = before[slots - 1]! + before[2 * slots - 1]! * (1 - ELSEWHERE_AGAIN);
  after[0]! += lastFrom * stepping.round * gap.other;
  const anywhere = (all * stepping.anywhere * gap.other) / slots;
  for (let slot = 0; slot < slots; slot++)
    after[slot]! += anywhere + entering * startOrEnd(slot, slots, stepping);
}

/** The same step seen from its end: for each state before, the weighted sum over states after. */
function stepBack(after: Float64Array, gap: GapDensity, slots: number, stepping: Stepping): Float64Array {
  const before = new Float64Array(2 * slots + 1);
  const steps = reach(gap, stepping);
  let all = 0;
  for (let slot = 0; slot < slots; slot++) all += after[slot]!;
  const round = after[0]! * stepping.round * gap.other;
  for (let last = 0; last < slots; last++) {
    let onward = (all * stepping.anywhere * gap.other) / slots;
    if (last === slots - 1) onward += round;
    for (const { distance, weight } of steps) {
      const slot = last + distance;
      if (slot >= 0 && slot < slots) onward += weight * after[slot]!;
    }
    const elsewhere = after[slots + last]! * gap.other;
    before[last] = onward + stepping.elsewhere * elsewhere;
    before[slots + last] = (1 - ELSEWHERE_AGAIN) * onward + ELSEWHERE_AGAIN * elsewhere;
  }
  let entering = 0;
  for (let slot = 0; slot < slots; slot++) entering += startOrEnd(slot, slots, stepping) * after[slot]!;
  before[2 * slots] = (ELSEWHERE_AGAIN * after[2 * slots]! + (1 - ELSEWHERE_AGAIN) * entering) * gap.other;
  return before;
}
