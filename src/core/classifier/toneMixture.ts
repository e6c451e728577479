import { portableExp, portableLog } from '../features/portableMath.ts';
import { type Histogram, scaledTo } from './histogram.ts';

export interface TonePrior {
  /** Tone of light grass less that of dark grass, and how far it strays from photo to photo. */
  readonly contrast: number;
  readonly contrastSpread: number;
  /** Spread of tone among neighbourhoods of one kind, and how many cells' worth it counts. */
  readonly spread: number;
  readonly spreadCells: number;
  readonly lightShare: number;
  readonly lightShareCells: number;
}

export interface ToneFit {
  /** Tone of a neighbourhood of dark grass only. */
  readonly dark: number;
  readonly contrast: number;
  readonly spread: number;
  /** Share of light grass in the vegetation, 0..1. */
  readonly lightShare: number;
  /** Log posterior odds (nats) of two kinds against one: how much better two explain the tones. */
  readonly gainNats: number;
}

/** Where the fit starts; the best end is taken. */
const STARTS = [0.05, 0.25, 0.5] as const;

/** Bins less likely than this tell only of outliers. */
const LEAST_DENSITY = 1e-30;

/**
 * Dark and light grass from the tones of neighbourhoods.
 *
 * The tone of a neighbourhood is linear in its share p of light grass: dark + contrast * p, with normal scatter. The
 * shares follow a U-shaped distribution, since grass grows in patches, tilted by a factor e^(t p) so that its mean
 * is the photo's share of light grass. Expectation-maximisation for dark, contrast, scatter and share with informative priors.
 *
 * @param patchShares how often p is 0, 1/n, .. 1 before the tilt
 * @param cells how many independent neighbourhoods the histogram stands for
 */
export function fitTones(
  histogram: Histogram,
  patchShares: readonly number[],
  prior: TonePrior,
  cells: number,
): ToneFit {
  const scaled = scaledTo(histogram, cells);
  let best: (ToneFit & { readonly logPosterior: number }) | undefined;
  for (const start of STARTS) {
    const fit = fitFrom(scaled, patchShares, prior, cells, start);
    if (!best || fit.logPosterior > best.logPosterior) best = fit;
  }
  const { dark, contrast, spread, lightShare, gainNats } = best!;
  return { dark, contrast, spread, lightShare, gainNats };
}

function fitFrom(
  { first, step, weights }: Histogram,
  patchShares: readonly number[],
  prior: TonePrior,
  cells: number,
  start: number,
): ToneFit & { readonly logPosterior: number } {
  const levels = patchShares.length;
  const last = levels - 1;
  const single = singleKind({ first, step, weights }, prior, cells);
  let lightShare = start;
  let contrast = prior.contrast;
  let dark = single.mean - contrast * start;
  let spread = prior.spread;
  let logLikelihood = 0;
  const density = new Float64Array(levels);
  const count = new Float64Array(levels);
  const moment = new Float64Array(levels);
  const square = new Float64Array(levels);
  for (let iteration = 0; iteration < 80; iteration += 1) {
    const before = lightShare;
    // expectation: how much of each bin belongs to each level of p
    const shares = tilted(patchShares, lightShare);
    count.fill(0);
    moment.fill(0);
    square.fill(0);
    logLikelihood = 0;
    for (let bin = 0; bin < weights.length; bin += 1) {
      const weight = weights[bin]!;
      if (weight === 0) continue;
      const x = first + bin * step;
      let sum = 0;
      for (let level = 0; level < levels; level += 1) {
        const z = (x - dark - (contrast * level) / last) / spread;
        density[level] = (shares[level]! * portableExp(-0.5 * z * z)) / spread;
        sum += density[level]!;
      }
      logLikelihood += weight * portableLog(Math.max(sum, LEAST_DENSITY));
      if (sum < LEAST_DENSITY) continue;
      for (let level = 0; level < levels; level += 1) {
        const part = (weight * density[level]!) / sum;
        count[level]! += part;
        moment[level]! += part * x;
        square[level]! += part * x * x;
      }
    }
    // maximisation: a weighted line of tone on p, the contrast drawn to its prior
    const precision = 1 / (spread * spread);
    const pull = 1 / (prior.contrastSpread * prior.contrastSpread);
    let [n, np, npp, x, px] = [0, 0, 0, 0, 0];
    for (let level = 0; level < levels; level += 1) {
      const p = level / last;
      n += count[level]!;
      np += count[level]! * p;
      npp += count[level]! * p * p;
      x += moment[level]!;
      px += moment[level]! * p;
    }
    lightShare = (np + prior.lightShare * prior.lightShareCells) / (n + prior.lightShareCells);
    const a = n * precision;
    const b = np * precision;
    const c = npp * precision + pull;
    const right1 = x * precision;
    const right2 = px * precision + prior.contrast * pull;
    const det = a * c - b * b;
    dark = (right1 * c - right2 * b) / det;
    contrast = (a * right2 - b * right1) / det;
    let residual = 0;
    for (let level = 0; level < levels; level += 1) {
      const m = dark + (contrast * level) / last;
      residual += square[level]! - 2 * m * moment[level]! + m * m * count[level]!;
    }
    spread = Math.sqrt(
      (residual + prior.spreadCells * prior.spread * prior.spread) / (n + prior.spreadCells),
    );
    if (Math.abs(lightShare - before) < 1e-6) break;
  }
  const strayed = (contrast - prior.contrast) / prior.contrastSpread;
  const logPosterior = logLikelihood + spreadLogPrior(spread, prior) - 0.5 * strayed * strayed;
  return {
    dark,
    contrast,
    spread,
    lightShare,
    gainNats: logPosterior - single.logPosterior,
    logPosterior:
      logPosterior +
      prior.lightShareCells *
        (prior.lightShare * portableLog(lightShare) + (1 - prior.lightShare) * portableLog(1 - lightShare)),
  };
}

/** One normal distribution in the histogram, on the same footing (no constant of pi, same prior of the spread). */
function singleKind(
  { first, step, weights }: Histogram,
  prior: TonePrior,
  cells: number,
): { readonly mean: number; readonly logPosterior: number } {
  let mean = 0;
  for (let bin = 0; bin < weights.length; bin += 1) mean += (weights[bin]! * (first + bin * step)) / cells;
  let squares = 0;
  for (let bin = 0; bin < weights.length; bin += 1) {
    const off = first + bin * step - mean;
    squares += weights[bin]! * off * off;
  }
  const variance = (squares + prior.spreadCells * prior.spread * prior.spread) / (cells + prior.spreadCells);
  const logLikelihood = -0.5 * (cells * portableLog(variance) + squares / variance);
  return { mean, logPosterior: logLikelihood + spreadLogPrior(Math.sqrt(variance), prior) };
}

/** Log density of the spread's prior, up to a constant: as if `spreadCells` cells had shown the prior spread. */
function spreadLogPrior(spread: number, prior: TonePrior): number {
  const ratio = prior.spread / spread;
  return prior.spreadCells * (portableLog(ratio) - 0.5 * ratio * ratio);
}

/** Shares proportional to base * e^(t p) with mean p equal to `mean`; t by bisection. */
function tilted(base: readonly number[], mean: number): Float64Array {
  const last = base.length - 1;
  const shares = new Float64Array(base.length);
  let low = -60;
  let high = 60;
  for (let step = 0; step < 40; step += 1) {
    const tilt = (low + high) / 2;
    let sum = 0;
    let moment = 0;
    for (let level = 0; level <= last; level += 1) {
      const p = level / last;
      shares[level] = base[level]! * portableExp(tilt > 0 ? tilt * (p - 1) : tilt * p);
      sum += shares[level]!;
      moment += shares[level]! * p;
    }
    if (moment < mean * sum) low = tilt;
    else high = tilt;
    for (let level = 0; level <= last; level += 1) shares[level]! /= sum;
  }
  return shares;
}
