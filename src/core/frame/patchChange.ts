import type { PatchCover } from './patchCover.ts';

/** Change of one class between two dates, over the patches measured on both. */
export interface ClassChange {
  /** 1.. as in the mask. */
  readonly label: number;
  /** Mean over the compared patches, each counted alike, 0..1. */
  readonly coverFractionBefore: number;
  readonly coverFractionAfter: number;
  /** Patches whose cover rose or fell by `leastChange` or more, and the rest. */
  readonly patchesUp: number;
  readonly patchesDown: number;
  readonly patchesSame: number;
  /** Sums of all rises and of all falls, as shares of the compared ground: turnover that a change of the mean hides. */
  readonly gainFraction: number;
  readonly lossFraction: number;
}

/** What changed inside a frame that lay on the same place on two dates; at the scale of patches, never of pixels. */
export interface PatchChange {
  readonly patchesCompared: number;
  /** Too little of these was measured on one of the dates. */
  readonly patchesLeftOut: number;
  /** Empty where no patch could be compared. */
  readonly classes: readonly ClassChange[];
  /** Change of cover fraction, index = patch * classCount + label - 1; null where not compared. */
  readonly changes: readonly (number | null)[];
}

/** A patch's cover has to change by this much to count as up or down, unless told otherwise. */
export const LEAST_PATCH_CHANGE = 0.1;

export interface PatchChangeOptions {
  /** A patch's cover has to change by this much to count as up or down. @default LEAST_PATCH_CHANGE */
  readonly leastChange?: number;
  /** A patch needs this share of the pixels that a patch has on average on its date. @default 0.5 */
  readonly leastMeasured?: number;
}

/**
 * Compares two dates patch by patch.
 *
 * Frames laid back by hand lie some millimetres off, and leaves move: patches should be many times wider than that
 * (50 mm is common practice here, no source). Small changes of single patches are placement and classification as
 * well as growth; nothing here tells them apart.
 *
 * @throws RangeError if the two are not divided alike
 */
export function patchChange(
  before: PatchCover,
  after: PatchCover,
  { leastChange = LEAST_PATCH_CHANGE, leastMeasured = 0.5 }: PatchChangeOptions = {},
): PatchChange {
  const { columns, rows, classCount } = before;
  if (after.columns !== columns || after.rows !== rows || after.classCount !== classCount) {
    throw new RangeError(
      `both dates need the same patches and classes, got ${columns} x ${rows} of ${classCount} and ` +
        `${after.columns} x ${after.rows} of ${after.classCount}`,
    );
  }
  const patches = columns * rows;
  const enough = [before, after].map(({ pixels }) => (leastMeasured * sum(pixels)) / patches);
  const compared: number[] = [];
  for (let patch = 0; patch < patches; patch += 1) {
    const [p, q] = [before.pixels[patch]!, after.pixels[patch]!];
    if (p > 0 && q > 0 && p >= enough[0]! && q >= enough[1]!) compared.push(patch);
  }
  const changes: (number | null)[] = Array(patches * classCount).fill(null);
  const classes: ClassChange[] = [];
  for (let label = 1; label <= classCount && compared.length > 0; label += 1) {
    let [coverBefore, coverAfter, up, down, gain, loss] = [0, 0, 0, 0, 0, 0];
    for (const patch of compared) {
      const [p, q] = [coverOf(before, patch, label), coverOf(after, patch, label)];
      const change = q - p;
      changes[patch * classCount + label - 1] = change;
      coverBefore += p;
      coverAfter += q;
      if (change >= leastChange) up += 1;
      if (change <= -leastChange) down += 1;
      if (change > 0) gain += change;
      else loss -= change;
    }
    const n = compared.length;
    classes.push({
      label,
      coverFractionBefore: coverBefore / n,
      coverFractionAfter: coverAfter / n,
      patchesUp: up,
      patchesDown: down,
      patchesSame: n - up - down,
      gainFraction: gain / n,
      lossFraction: loss / n,
    });
  }
  return { patchesCompared: compared.length, patchesLeftOut: patches - compared.length, classes, changes };
}

function coverOf({ ground, classCount }: PatchCover, patch: number, label: number): number {
  const all = sum(ground.subarray(patch * classCount, (patch + 1) * classCount));
  return ground[patch * classCount + label - 1]! / all;
}

function sum(values: Float64Array | Uint32Array): number {
  let total = 0;
  for (const value of values) total += value;
  return total;
}
