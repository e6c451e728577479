import { fourCharacters, hasText, viewOf } from './bytes.ts';

/** What red, green and blue of a photo mean, where that is not sRGB. */
export interface ColourProfile {
  /** Linear light 0..1 of each of the 256 stored values, for red, green and blue. */
  readonly linear: readonly [Float64Array, Float64Array, Float64Array];
  /** Linear profile colour to CIE XYZ under D50, row-major 3 x 3. */
  readonly toXyzD50: readonly number[];
}

/** A profile that is none (a decoder would ignore it as well), a usable one, or one made of tables. */
export type ProfileReading =
  | { readonly state: 'ignored' }
  | { readonly state: 'usable'; readonly profile: ColourProfile }
  | { readonly state: 'tables' };

const IGNORED: ProfileReading = { state: 'ignored' };

/**
 * Reads an RGB profile of three primaries and three curves, which is what phones and cameras write.
 *
 * @param icc the whole profile, not compressed
 * @see ICC.1:2022, sections 7.2 (head), 8.3 (three-component matrix-based profiles), 10.6 and 10.18 (curves)
 */
export function readColourProfile(icc: Uint8Array): ProfileReading {
  if (icc.length < 132 || !hasText(icc, 36, 'acsp') || !hasText(icc, 16, 'RGB ')) return IGNORED;
  const tags = readTags(icc);
  if (!tags) return IGNORED;
  const primaries = ['rXYZ', 'gXYZ', 'bXYZ'].map((name) => xyzOf(tags.get(name)));
  const curves = ['rTRC', 'gTRC', 'bTRC'].map((name) => curveOf(tags.get(name)));
  const [red, green, blue] = primaries;
  const [redCurve, greenCurve, blueCurve] = curves;
  if (!red || !green || !blue || !redCurve || !greenCurve || !blueCurve || !hasText(icc, 20, 'XYZ ')) {
    return tags.has('A2B0') ? { state: 'tables' } : IGNORED;
  }
  const toXyzD50 = [0, 1, 2].flatMap((row) => [red[row]!, green[row]!, blue[row]!]);
  return { state: 'usable', profile: { linear: [redCurve, greenCurve, blueCurve], toXyzD50 } };
}

function readTags(icc: Uint8Array): Map<string, Uint8Array> | null {
  const view = viewOf(icc);
  const count = view.getUint32(128);
  if (132 + 12 * count > icc.length) return null;
  const tags = new Map<string, Uint8Array>();
  for (let at = 132; at < 132 + 12 * count; at += 12) {
    const offset = view.getUint32(at + 4);
    const end = offset + view.getUint32(at + 8);
    if (end <= icc.length) tags.set(fourCharacters(icc, at), icc.subarray(offset, end));
  }
  return tags;
}

const fixed16 = (view: DataView, at: number): number => view.getInt32(at) / 65536;

function xyzOf(tag: Uint8Array | undefined): [number, number, number] | null {
  if (!tag || tag.length < 20 || !hasText(tag, 0, 'XYZ ')) return null;
  const view = viewOf(tag);
  return [fixed16(view, 8), fixed16(view, 12), fixed16(view, 16)];
}

/** Linear light of the 256 stored values under a `curv` or `para` tag. */
function curveOf(tag: Uint8Array | undefined): Float64Array | null {
  const curve = tag && (hasText(tag, 0, 'curv') ? tableCurve(tag) : parametricCurve(tag));
  if (!curve) return null;
  return Float64Array.from({ length: 256 }, (_, value) => Math.min(1, Math.max(0, curve(value / 255))));
}

type Curve = (value: number) => number;

function tableCurve(tag: Uint8Array): Curve | null {
  if (tag.length < 12) return null;
  const view = viewOf(tag);
  const count = view.getUint32(8);
  if (12 + 2 * count > tag.length) return null;
  if (count === 0) return (value) => value;
  if (count === 1) {
    const gamma = view.getUint16(12) / 256;
    return (value) => value ** gamma;
  }
  return (value) => {
    const place = value * (count - 1);
    const below = Math.min(Math.floor(place), count - 2);
    const [low, high] = [view.getUint16(12 + 2 * below), view.getUint16(14 + 2 * below)];
    return (low + (high - low) * (place - below)) / 65535;
  };
}

/** How many numbers each kind of parametric curve has. */
const PARAMETER_COUNTS = [1, 3, 4, 5, 7];

function parametricCurve(tag: Uint8Array): Curve | null {
  if (tag.length < 12 || !hasText(tag, 0, 'para')) return null;
  const view = viewOf(tag);
  const kind = view.getUint16(8);
  const count = PARAMETER_COUNTS[kind];
  if (count === undefined || 12 + 4 * count > tag.length) return null;
  const numbers = Array.from({ length: count }, (_, i) => fixed16(view, 12 + 4 * i));
  const [g, a = 1, b = 0] = numbers as [number, number?, number?];
  const power: Curve = (value) => Math.max(0, a * value + b) ** g;
  if (kind === 0) return power;
  const [, , , third = 0, fourth = 0, fifth = 0, sixth = 0] = numbers;
  if (kind === 1) return (value) => (value >= -b / a ? power(value) : 0);
  if (kind === 2) return (value) => (value >= -b / a ? power(value) + third : third);
  return (value) => (value >= fourth ? power(value) + fifth : third * value + sixth);
}
