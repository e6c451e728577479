import { type PhotoPoint, photoPoint } from '../geometry/points.ts';
import type { CorrectedMask } from './correctedMask.ts';
import { correctionAt, FIRST_WAITING, TILE_SIDE, tilesAcross } from './correctionLayer.ts';

/** A pixel whose class a person gave. */
export interface TrainingPixel {
  readonly label: number;
  /** The pixel's centre. */
  readonly at: PhotoPoint;
}

export interface TrainingPixelOptions {
  /** At most so many of each class; all of them where there are fewer. */
  readonly pixelsPerClass: number;
  /** Uniform on [0, 1); seeded by the caller, so that the same corrections teach the same. */
  readonly random: () => number;
}

/**
 * Draws pixels from hand corrections to teach a model with, spread over the photo.
 *
 * Corrections count whether they changed the class or confirmed it, where they are in effect. Of each class the tiles
 * that hold it take turns in random order, so a large area does not crowd out small ones. A pixel on the rim of a
 * corrected area is drawn only if its class has no other, since brushes overshoot.
 *
 * @returns by class, tile by tile
 * @throws RangeError if pixelsPerClass is not a whole number from 0
 */
export function trainingPixels(mask: CorrectedMask, options: TrainingPixelOptions): TrainingPixel[] {
  const { pixelsPerClass, random } = options;
  if (!Number.isInteger(pixelsPerClass) || pixelsPerClass < 0) {
    throw new RangeError(`pixelsPerClass must be a whole number from 0, got ${pixelsPerClass}`);
  }
  const keys = [...mask.corrections.tiles.keys()].sort((a, b) => a - b);
  const innerByTile = keys.map((key) => countByLabel(mask, key, true));
  const drawn: TrainingPixel[] = [];
  for (let label = 1; label <= mask.classCount; label += 1) {
    const innerOnly = innerByTile.some((counts) => counts[label]! > 0);
    const available = keys.map((key, i) =>
      innerOnly ? innerByTile[i]![label]! : countByLabel(mask, key, false)[label]!,
    );
    const { order, quotas } = shareOut(available, pixelsPerClass, random);
    for (const i of order) {
      const pixels = pixelsOfLabel(mask, keys[i]!, label, innerOnly);
      for (const pixel of drawWithoutReplacement(pixels, quotas[i]!, random)) {
        const y = Math.floor(pixel / mask.automatic.widthPx);
        drawn.push({ label, at: photoPoint(pixel - y * mask.automatic.widthPx + 0.5, y + 0.5) });
      }
    }
  }
  return drawn;
}

function pixelsOfLabel(mask: CorrectedMask, key: number, label: number, innerOnly: boolean): number[] {
  const pixels: number[] = [];
  forEachCorrected(mask, key, innerOnly, (found, pixel) => {
    if (found === label) pixels.push(pixel);
  });
  return pixels;
}

/** The first steps of a Fisher-Yates shuffle; reorders `values`. */
function drawWithoutReplacement(values: number[], count: number, random: () => number): number[] {
  for (let taken = 0; taken < count; taken += 1) {
    const at = taken + Math.floor(random() * (values.length - taken));
    [values[taken], values[at]] = [values[at]!, values[taken]!];
  }
  return values.slice(0, count);
}

/** Visits the corrected pixels of one tile that are in effect; `innerOnly` leaves out the rim of each area. */
function forEachCorrected(
  mask: CorrectedMask,
  key: number,
  innerOnly: boolean,
  visit: (label: number, pixel: number) => void,
): void {
  const { automatic, corrections } = mask;
  const { widthPx, heightPx, labels } = automatic;
  const tile = corrections.tiles.get(key)!;
  const across = tilesAcross(corrections);
  const left = (key % across) * TILE_SIDE;
  const top = Math.floor(key / across) * TILE_SIDE;
  /** The correction at a place in or round the tile; beyond the photo, that of the nearest pixel in it. */
  const at = (x: number, y: number): number => {
    if (x >= 0 && x < TILE_SIDE && y >= 0 && y < TILE_SIDE && left + x < widthPx && top + y < heightPx) {
      return tile[y * TILE_SIDE + x]!;
    }
    const within = (value: number, end: number) => Math.min(Math.max(value, 0), end - 1);
    return correctionAt(corrections, within(left + x, widthPx), within(top + y, heightPx));
  };
  for (let y = 0; y < TILE_SIDE; y += 1) {
    for (let x = 0; x < TILE_SIDE; x += 1) {
      const label = tile[y * TILE_SIDE + x]!;
      if (label === 0 || label >= FIRST_WAITING) continue;
      const pixel = (top + y) * widthPx + left + x;
      if (labels[pixel] === 0) continue;
      const isInner =
        !innerOnly ||
        (at(x - 1, y) === label &&
          at(x + 1, y) === label &&
          at(x, y - 1) === label &&
          at(x, y + 1) === label);
      if (isInner) visit(label, pixel);
    }
  }
}

/** How many pixels of each label `forEachCorrected` visits. */
function countByLabel(mask: CorrectedMask, key: number, innerOnly: boolean): Int32Array {
  const counts = new Int32Array(mask.classCount + 1);
  forEachCorrected(mask, key, innerOnly, (label) => {
    counts[label]! += 1;
  });
  return counts;
}

/**
 * Shares a number of draws out among tiles: one each in turn, in random order, until all are given or nothing is left.
 *
 * @param available pixels of each tile
 * @returns the tiles that give any, in their order, and how many each tile gives
 */
function shareOut(
  available: readonly number[],
  wanted: number,
  random: () => number,
): { readonly order: readonly number[]; readonly quotas: readonly number[] } {
  const order = available.flatMap((count, i) => (count > 0 ? [i] : []));
  for (let i = order.length - 1; i > 0; i -= 1) {
    const j = Math.floor(random() * (i + 1));
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
  const quotas = available.map(() => 0);
  let rest = wanted;
  for (let waiting = order; waiting.length > 0 && rest > 0; ) {
    for (const i of waiting.slice(0, rest)) quotas[i]! += 1;
    rest -= Math.min(rest, waiting.length);
    waiting = waiting.filter((i) => quotas[i]! < available[i]!);
  }
  return { order: order.filter((i) => quotas[i]! > 0), quotas };
}
