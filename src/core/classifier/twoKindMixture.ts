import { portableExp } from '../features/portableMath.ts';
import { type Histogram, scaledTo } from './histogram.ts';

/** A normal distribution whose mean strays from photo to photo. */
export interface KindPrior {
  readonly mean: number;
  readonly meanSpread: number;
  readonly spread: number;
}

export interface Kind {
  readonly mean: number;
  readonly spread: number;
  /** Share of the whole, 0..1. */
  readonly share: number;
}

export interface TwoKinds {
  readonly low: Kind;
  readonly high: Kind;
  /** Share whose kind is a toss-up: the expected share put to the wrong kind by the likelier one. */
  readonly betweenShare: number;
}

/** Both kinds are there a little, so that a share can grow from nothing: pseudo-counts beyond a flat prior. */
const SHARE_COUNTS = 1;

/**
 * Two normal distributions in a histogram, by expectation-maximisation with informative priors.
 *
 * A kind that the photo does not show keeps its prior place and gets a share near 0.
 *
 * @param cells how many independent cells the histogram stands for
 * @param spreadCells how many cells' worth the prior spreads count
 * @see Gelman et al., Bayesian Data Analysis, chapter 22 (finite mixtures) for the method
 */
export function fitTwoKinds(
  histogram: Histogram,
  priors: { readonly low: KindPrior; readonly high: KindPrior },
  cells: number,
  spreadCells: number,
): TwoKinds {
  const { first, step, weights } = scaledTo(histogram, cells);
  const prior = [priors.low, priors.high] as const;
  const mean = [prior[0].mean, prior[1].mean];
  const spread = [prior[0].spread, prior[1].spread];
  let highShare = 0.5;
  let betweenShare = 0;
  const highPart = new Float64Array(weights.length);
  for (let iteration = 0; iteration < 80; iteration += 1) {
    // expectation: how much of each bin is of the high kind
    betweenShare = 0;
    for (let bin = 0; bin < weights.length; bin += 1) {
      if (weights[bin] === 0) continue;
      const x = first + bin * step;
      const zLow = (x - mean[0]!) / spread[0]!;
      const zHigh = (x - mean[1]!) / spread[1]!;
      const part = share(
        (1 - highShare) / spread[0]!,
        -0.5 * zLow * zLow,
        highShare / spread[1]!,
        -0.5 * zHigh * zHigh,
      );
      highPart[bin] = part;
      betweenShare += weights[bin]! * Math.min(part, 1 - part);
    }
    // maximisation
    let highCount = 0;
    for (let kind = 0; kind < 2; kind += 1) {
      let count = 0;
      let moment = 0;
      for (let bin = 0; bin < weights.length; bin += 1) {
        const weight = weights[bin]! * (kind === 1 ? highPart[bin]! : 1 - highPart[bin]!);
        count += weight;
        moment += weight * (first + bin * step);
      }
      const { mean: priorMean, meanSpread, spread: priorSpread } = prior[kind]!;
      const precision = 1 / (spread[kind]! * spread[kind]!);
      const priorPrecision = 1 / (meanSpread * meanSpread);
      mean[kind] = (moment * precision + priorMean * priorPrecision) / (count * precision + priorPrecision);
      let square = 0;
      for (let bin = 0; bin < weights.length; bin += 1) {
        const off = first + bin * step - mean[kind]!;
        square += weights[bin]! * (kind === 1 ? highPart[bin]! : 1 - highPart[bin]!) * off * off;
      }
      spread[kind] = Math.sqrt((square + spreadCells * priorSpread * priorSpread) / (count + spreadCells));
      if (kind === 1) highCount = count;
    }
    highShare = (highCount + SHARE_COUNTS) / (cells + 2 * SHARE_COUNTS);
  }
  let high = 0;
  for (let bin = 0; bin < weights.length; bin += 1) high += weights[bin]! * highPart[bin]!;
  return {
    low: { mean: mean[0]!, spread: spread[0]!, share: 1 - high / cells },
    high: { mean: mean[1]!, spread: spread[1]!, share: high / cells },
    betweenShare: betweenShare / cells,
  };
}

/** b e^y / (a e^x + b e^y), without overflow. */
function share(a: number, x: number, b: number, y: number): number {
  if (x >= y) {
    const second = b * portableExp(y - x);
    return second / (a + second);
  }
  return b / (a * portableExp(x - y) + b);
}
