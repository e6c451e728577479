/**
 * How a picture is toned before labels are looked for: `even-light` goes by ratios of light, so that the edge of a shadow over a
 * label is a smaller step than its ink; `as-seen` keeps the tones, which is better for blurred and strongly tilted labels.
 */
export type LabelTone = 'even-light' | 'as-seen';

/** Adds to the tones before their logarithm is taken: below it there is only noise. */
const NOISE_FLOOR = 6;

const TONES: Readonly<Record<LabelTone, Uint8Array>> = {
  'as-seen': Uint8Array.from({ length: 256 }, (_, tone) => tone),
  'even-light': Uint8Array.from({ length: 256 }, (_, tone) =>
    Math.round((255 * Math.log(tone / NOISE_FLOOR + 1)) / Math.log(255 / NOISE_FLOOR + 1)),
  ),
};

/** Makes RGBA pixels grey in a tone; writes to `rgba`. Grey is luma after ITU-R BT.601. */
export function toneForLabels(rgba: Uint8ClampedArray | Uint8Array, tone: LabelTone): void {
  const tones = TONES[tone];
  for (let at = 0; at < rgba.length; at += 4) {
    const grey = tones[(77 * rgba[at]! + 150 * rgba[at + 1]! + 29 * rgba[at + 2]!) >> 8]!;
    rgba[at] = grey;
    rgba[at + 1] = grey;
    rgba[at + 2] = grey;
  }
}
