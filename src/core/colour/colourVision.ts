import { labFromXyz, type Triple, xyzFromLinear } from './cielab.ts';
import { linearFromSrgb } from './srgb.ts';

/** How people see colours: all cones, or without those for long or for middle wavelengths. */
export type ColourVision = 'normal' | 'protanope' | 'deuteranope';

/**
 * Linear sRGB as dichromats see it.
 *
 * @see Vienot, Brettel and Mollon 1999, Color Research and Application 24:243; the entries are from memory, worked out
 *   for the primaries of sRGB
 */
const SEEN: Readonly<Record<Exclude<ColourVision, 'normal'>, readonly [Triple, Triple, Triple]>> = {
  protanope: [
    [0.10889, 0.89111, 0],
    [0.10889, 0.89111, 0],
    [0.00447, -0.00447, 1],
  ],
  deuteranope: [
    [0.29031, 0.70969, 0],
    [0.29031, 0.70969, 0],
    [-0.02197, 0.02197, 1],
  ],
};

const VISIONS: readonly ColourVision[] = ['normal', 'protanope', 'deuteranope'];

/**
 * How far apart two colours are for whoever tells them apart worst: the least CIE 1976 colour difference over normal
 * colour vision and the two common kinds of dichromacy. About 2 is just seen side by side.
 *
 * @param a "#rrggbb"
 */
export function leastColourDifference(a: string, b: string): number {
  const differences = VISIONS.map((vision) => {
    const [one, other] = [labSeenBy(a, vision), labSeenBy(b, vision)];
    return Math.hypot(one[0] - other[0], one[1] - other[1], one[2] - other[2]);
  });
  return Math.min(...differences);
}

function labSeenBy(colour: string, vision: ColourVision): Triple {
  if (!/^#[0-9a-f]{6}$/i.test(colour)) throw new RangeError(`a colour is written #rrggbb, got "${colour}"`);
  const channel = (at: number) => linearFromSrgb(Number.parseInt(colour.slice(at, at + 2), 16) / 255);
  const linear: Triple = [channel(1), channel(3), channel(5)];
  if (vision === 'normal') return labFromXyz(xyzFromLinear(linear));
  const [r, g, b] = SEEN[vision];
  const row = (factors: Triple) =>
    Math.max(0, factors[0] * linear[0] + factors[1] * linear[1] + factors[2] * linear[2]);
  return labFromXyz(xyzFromLinear([row(r), row(g), row(b)]));
}
