import type { Adjustment, ReferencePhoto } from '../../src/core/cover/adjustment.ts';
import { adjustTreatments, POOLING_ALPHA } from '../../src/core/cover/adjustTreatments.ts';
import { addMatrices } from '../../src/core/cover/errorMatrix.ts';
import { invertErrorRates, pooledErrorRates } from '../../src/core/cover/invertedErrorRates.ts';
import { adjustTreatmentCover } from '../../src/core/cover/postStratifiedCover.ts';
import { estimatePlotCover } from '../../src/core/point-grid/clusteredEstimate.ts';
import { wilsonInterval } from '../../src/core/statistics/proportions/proportionInterval.ts';
import { type Random, repeatableRandom, seedFor } from '../../src/core/trial/repeatableRandom.ts';

/** One way of finding the weedy grass of a treatment, over many simulated trials. Percent of ground. */
export interface WayResult {
  readonly way: string;
  /** Percent of trials in which this way gives a figure; it is refused in the others. */
  readonly given: number;
  readonly meanCover: number;
  readonly bias: number;
  readonly rootMeanSquareError: number;
  /**
   * Percent of the 95 % intervals that hold the treatment's true mean; null for a way without an interval.
   */
  readonly coverage: number | null;
}

/** One treatment of a scenario. */
export interface TreatmentResult {
  readonly treatment: string;
  readonly trueCover: number;
  readonly ways: readonly WayResult[];
}

export interface ScenarioResult {
  readonly name: string;
  readonly trials: number;
  /** Percent of trials in which the test finds unequal error rates (p below POOLING_ALPHA for some class). */
  readonly foundUnequal: number;
  /**
   * Percent of trials whose error rates are pooled, as some treatment has too few points of its own and the
   * test found nothing.
   */
  readonly pooled: number;
  readonly treatments: readonly TreatmentResult[];
}

/** Coverage of a plot's interval from several frames, in percent. */
export interface FrameResult {
  readonly frames: number;
  readonly pointsPerFrame: number;
  readonly cover: number;
  /** Correlation of two points of one frame. */
  readonly correlation: number;
  readonly coverage: number;
  /** Of Wilson's interval over all points, as if independent. */
  readonly coverageIndependent: number;
}

export interface AdjustmentSimulations {
  readonly scenarios: readonly ScenarioResult[];
  readonly frames: readonly FrameResult[];
}

interface Scenario {
  readonly name: string;
  /** Points on each of the four photos of a treatment. */
  readonly points: number;
  /** Weedy grass of each treatment and the share of it that the mask calls weedy grass. */
  readonly treatments: readonly { readonly weed: number; readonly sensitivity: number }[];
}

const EQUAL = {
  name: 'equal error rates, 40 % against 2 %',
  treatments: [40, 20, 8, 2].map((weed) => ({ weed: weed / 100, sensitivity: 0.85 })),
};
const UNEQUAL = {
  name: 'unequal sensitivity: 0.9 on treatments 1 and 2, 0.5 (bleached) on 3 and 4',
  treatments: [40, 20, 20, 8].map((weed, i) => ({ weed: weed / 100, sensitivity: i < 2 ? 0.9 : 0.5 })),
};
const SCENARIOS: readonly Scenario[] = [EQUAL, UNEQUAL].flatMap((scenario) =>
  [100, 25].map((points) => ({ ...scenario, name: `${scenario.name}; ${points} points a photo`, points })),
);

const CLASS_IDS = ['ryegrass', 'weedy-grass', 'bare-ground'];
const WEED = 1;
const PHOTOS = 4;
const TRIALS = 400;
const PERMUTATIONS = 499;
/** Spread between photos of the logits of the mask's sensitivities and of the cover. */
const RATE_SPREAD = 0.3;
const COVER_SPREAD = 0.3;

export function measureAdjustments(): AdjustmentSimulations {
  return {
    scenarios: SCENARIOS.map(runScenario),
    frames: [2, 3, 4, 6, 10].flatMap((frames) =>
      [
        { cover: 0.05, correlation: 0.05 },
        { cover: 0.2, correlation: 0.1 },
      ].map((ground) => frameCoverage({ frames, ...ground })),
    ),
  };
}

interface SimulatedPhoto extends ReferencePhoto {
  readonly cover: readonly number[];
  readonly mapped: readonly number[];
}

function runScenario(scenario: Scenario): ScenarioResult {
  const names = scenario.treatments.map((_, t) => String(t + 1));
  const tallies = names.map(() => new Map<string, { estimates: number[]; errors: number[]; held: number }>());
  const truths = names.map((): number[] => []);
  let [foundUnequal, pooled] = [0, 0];
  for (let trial = 0; trial < TRIALS; trial += 1) {
    const random = repeatableRandom(seedFor(trial, scenario.name));
    const photos = scenario.treatments.flatMap(({ weed, sensitivity }, t) =>
      Array.from({ length: PHOTOS }, (_, k) =>
        simulatePhoto({ weed, sensitivity, points: scenario.points }, names[t]!, k, random),
      ),
    );
    const ofTreatment = (treatment: string) => photos.filter((photo) => photo.treatment === treatment);
    const mapped = names.map((treatment) => ({
      treatment,
      mappedFraction: meanOf(ofTreatment(treatment).map((photo) => photo.mapped)),
      photos: PHOTOS,
    }));
    const chosen = adjustTreatments(photos, mapped, CLASS_IDS, random, { permutations: PERMUTATIONS });
    if (chosen.test.smallestP !== null && chosen.test.smallestP < POOLING_ALPHA) foundUnequal += 1;
    if (chosen.way === 'pooled') pooled += 1;
    const rates = pooledErrorRates(photos, CLASS_IDS);
    const pooledMatrix = addMatrices(photos.map(({ counts }) => counts));
    names.forEach((treatment, t) => {
      const truth = meanOf(ofTreatment(treatment).map((photo) => photo.cover))[WEED]!;
      const { mappedFraction } = mapped[t]!;
      truths[t]!.push(truth);
      const record = (way: string, estimate: number, holds: boolean) => {
        const tally = tallies[t]!.get(way) ?? { estimates: [], errors: [], held: 0 };
        tally.estimates.push(100 * estimate);
        tally.errors.push(100 * (estimate - truth));
        if (holds) tally.held += 1;
        tallies[t]!.set(way, tally);
      };
      const recordAdjustment = (way: string, adjustment: Adjustment) => {
        if (!adjustment.ok) return;
        const { coverFraction, interval } = adjustment.classes[WEED]!;
        record(way, coverFraction, interval.low <= truth && truth <= interval.high);
      };
      record(WITHOUT_INTERVAL[0], mappedFraction[WEED]!, false);
      const carried = pooledMatrix.reduce((sum, row, i) => {
        const points = row.reduce((total, count) => total + count, 0);
        return sum + (points > 0 ? (mappedFraction[i]! * row[WEED]!) / points : 0);
      }, 0);
      record(WITHOUT_INTERVAL[1], carried, false);
      if (rates.ok) recordAdjustment('pooled, inverted', invertErrorRates(rates, mapped[t]!));
      recordAdjustment('own points', adjustTreatmentCover(ofTreatment(treatment), mappedFraction, CLASS_IDS));
      recordAdjustment('as the program decides', chosen.treatments[t]!.adjustment);
    });
  }
  return {
    name: scenario.name,
    trials: TRIALS,
    foundUnequal: (100 * foundUnequal) / TRIALS,
    pooled: (100 * pooled) / TRIALS,
    treatments: names.map((treatment, t) => ({
      treatment,
      trueCover: 100 * mean(truths[t]!),
      ways: [...tallies[t]!].map(([way, { estimates, errors, held }]) => ({
        way,
        given: (100 * estimates.length) / TRIALS,
        meanCover: mean(estimates),
        bias: mean(errors),
        rootMeanSquareError: Math.sqrt(mean(errors.map((error) => error ** 2))),
        coverage: WITHOUT_INTERVAL.some((name) => name === way) ? null : (100 * held) / estimates.length,
      })),
    })),
  };
}

const WITHOUT_INTERVAL = ['mask alone', 'pooled P(observed | mask)'] as const;

/** A photo with its cover, its mask's error rates and points drawn from both. */
function simulatePhoto(
  {
    weed,
    sensitivity,
    points,
  }: { readonly weed: number; readonly sensitivity: number; readonly points: number },
  treatment: string,
  index: number,
  random: Random,
): SimulatedPhoto {
  const weedHere = shiftLogit(weed, COVER_SPREAD * normal(random));
  const bareHere = (1 - weedHere) * shiftLogit(0.15, COVER_SPREAD * normal(random));
  const cover = [1 - weedHere - bareHere, weedHere, bareHere];
  const [rye, own, bare] = [0.93, sensitivity, 0.85].map((rate) =>
    shiftLogit(rate, RATE_SPREAD * normal(random)),
  ) as [number, number, number];
  // what the mask makes of each class: rows class on the mask, columns true class
  const rates = [
    [rye, (1 - own) * 0.8, (1 - bare) * 0.7],
    [(1 - rye) * 0.6, own, (1 - bare) * 0.3],
    [(1 - rye) * 0.4, (1 - own) * 0.2, bare],
  ];
  const mapped = rates.map((row) => row.reduce((sum, rate, j) => sum + rate * cover[j]!, 0));
  const counts = rates.map((row) => row.map(() => 0));
  for (let point = 0; point < points; point += 1) {
    const j = drawIndex(cover, random);
    const i = drawIndex(
      rates.map((row) => row[j]!),
      random,
    );
    counts[i]![j]! += 1;
  }
  return { photo: `${treatment}-${index}`, treatment, counts, cover, mapped };
}

const PLOTS = 4000;
const FRAME_POINTS = 50;

function frameCoverage(given: {
  readonly frames: number;
  readonly cover: number;
  readonly correlation: number;
}): FrameResult {
  const { frames, cover, correlation } = given;
  const random = repeatableRandom(seedFor(frames, String(cover), String(correlation)));
  const size = 1 / correlation - 1;
  let [held, heldIndependent] = [0, 0];
  for (let plot = 0; plot < PLOTS; plot += 1) {
    const counts = Array.from({ length: frames }, () => {
      const [a, b] = [gamma(cover * size, random), gamma((1 - cover) * size, random)];
      let hits = 0;
      for (let i = 0; i < FRAME_POINTS; i += 1) if (random() < a / (a + b)) hits += 1;
      return { hits: [hits, FRAME_POINTS - hits], indeterminate: 0, unlabelled: 0, outside: 0 };
    });
    const { hits, interval } = estimatePlotCover(counts).classes[0]!;
    if (interval!.low <= cover && cover <= interval!.high) held += 1;
    const naive = wilsonInterval(hits, frames * FRAME_POINTS, 0.95);
    if (naive.low <= cover && cover <= naive.high) heldIndependent += 1;
  }
  return {
    ...given,
    pointsPerFrame: FRAME_POINTS,
    coverage: (100 * held) / PLOTS,
    coverageIndependent: (100 * heldIndependent) / PLOTS,
  };
}

/** Both parts as tables for people. */
export function adjustmentSimulationsTable({ scenarios, frames }: AdjustmentSimulations): string {
  const number = (value: number) => value.toFixed(2).padStart(8);
  const lines = [`Adjusting treatments: ${PHOTOS} photos each; weedy grass, % of ground`];
  for (const { name, trials, foundUnequal, pooled, treatments } of scenarios) {
    lines.push(
      `${name} (${trials} trials; unequal rates found in ${foundUnequal.toFixed(1)} %, pooled in ${pooled.toFixed(1)} %)`,
      `  treatment  true    ${'way'.padEnd(28)}  given     mean     bias     RMSE  coverage`,
    );
    for (const { treatment, trueCover, ways } of treatments) {
      for (const way of ways) {
        lines.push(
          `  ${treatment.padEnd(9)} ${number(trueCover)}  ${way.way.padEnd(26)} ${way.given.toFixed(0).padStart(5)} % ${number(way.meanCover)} ${number(way.bias)} ${number(way.rootMeanSquareError)}  ${way.coverage === null ? '     -' : `${way.coverage.toFixed(1).padStart(6)} %`}`,
        );
      }
    }
  }
  lines.push(
    '',
    `Plot cover from frames of ${FRAME_POINTS} points (beta-binomial): coverage of the 95 % interval`,
    '  frames  cover  correlation  frames as clusters  all points independent',
    ...frames.map(
      (row) =>
        `  ${String(row.frames).padStart(6)} ${(100 * row.cover).toFixed(0).padStart(4)} %  ${String(row.correlation).padStart(11)}  ${row.coverage.toFixed(1).padStart(18)}  ${row.coverageIndependent.toFixed(1).padStart(22)}`,
    ),
  );
  return lines.join('\n');
}

const shiftLogit = (share: number, by: number): number => 1 / (1 + ((1 - share) / share) * Math.exp(-by));

/** Box and Muller. */
const normal = (random: Random): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

/** Gamma variable of scale 1 (Marsaglia and Tsang 2000, ACM Trans. Math. Softw. 26:363). */
function gamma(shape: number, random: Random): number {
  if (shape < 1) return gamma(shape + 1, random) * (1 - random()) ** (1 / shape);
  const d = shape - 1 / 3;
  for (;;) {
    const x = normal(random);
    const v = (1 + x / Math.sqrt(9 * d)) ** 3;
    if (v > 0 && Math.log(1 - random()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
}

function drawIndex(shares: readonly number[], random: Random): number {
  let rest = random() * shares.reduce((sum, share) => sum + share, 0);
  const index = shares.findIndex((share) => {
    rest -= share;
    return rest < 0;
  });
  return index < 0 ? shares.length - 1 : index;
}

const meanOf = (lists: readonly (readonly number[])[]): number[] =>
  lists[0]!.map((_, j) => mean(lists.map((list) => list[j]!)));

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
