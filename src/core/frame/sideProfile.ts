import type { PhotoPoint } from '../geometry/points.ts';
import type { PixelSource } from './pixelSource.ts';

/** Median colours across a side of the frame in one stretch of it. */
export interface SideProfile {
  /** Middle of the stretch, in pixels along the side from its first corner. */
  readonly alongPx: number;
  /** Lightness, red less green, blue less yellow at `firstPx`, `firstPx` + `stepPx`, ...; outward is positive. */
  readonly channels: readonly [Float32Array, Float32Array, Float32Array];
}

export interface ProfileRange {
  readonly firstPx: number;
  readonly stepPx: number;
  readonly count: number;
}

/** Shares of the side that are left out at its ends: corner pieces of the frame are thicker than its pipes. */
const END_SHARE = 0.07;
/** Samples along a stretch, at each of which every distance is looked at. */
const SAMPLES = 25;

/**
 * Profiles in `stretches` equal stretches of the side from `from` to `to`, with the frame's inside on the right hand.
 *
 * Medians, since single blades lie across the pipe. Stretches that leave the picture anywhere are left out.
 */
export function sideProfiles(
  source: PixelSource,
  from: PhotoPoint,
  to: PhotoPoint,
  stretches: number,
  range: ProfileRange,
): SideProfile[] {
  const { widthPx, heightPx, red, green, blue, stride } = source;
  const lengthPx = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [dx, dy] = [(to[0] - from[0]) / lengthPx, (to[1] - from[1]) / lengthPx];
  // left of the direction of travel on screen is outward for corners that run clockwise
  const [nx, ny] = [dy, -dx];
  const usable = lengthPx * (1 - 2 * END_SHARE);
  const values = [new Float32Array(SAMPLES), new Float32Array(SAMPLES), new Float32Array(SAMPLES)] as const;
  const profiles: SideProfile[] = [];
  stretch: for (let k = 0; k < stretches; k += 1) {
    const start = END_SHARE * lengthPx + (k * usable) / stretches;
    const channels = [
      new Float32Array(range.count),
      new Float32Array(range.count),
      new Float32Array(range.count),
    ] as const;
    for (let i = 0; i < range.count; i += 1) {
      const out = range.firstPx + i * range.stepPx;
      for (let s = 0; s < SAMPLES; s += 1) {
        const along = start + ((s + 0.5) * usable) / stretches / SAMPLES;
        const x = Math.floor(from[0] + dx * along + nx * out);
        const y = Math.floor(from[1] + dy * along + ny * out);
        if (x < 0 || y < 0 || x >= widthPx || y >= heightPx) continue stretch;
        const at = (y * widthPx + x) * stride;
        const [r, g, b] = [red[at]!, green[at]!, blue[at]!];
        values[0][s] = (r + 2 * g + b) / 4;
        values[1][s] = r - g;
        values[2][s] = b - (r + g) / 2;
      }
      for (let c = 0; c < 3; c += 1) channels[c]![i] = middleOf(values[c]!);
    }
    profiles.push({ alongPx: start + usable / stretches / 2, channels });
  }
  return profiles;
}

/** The median of a few numbers, sorted in place by insertion: several times quicker here than the library's sort. */
function middleOf(values: Float32Array): number {
  for (let i = 1; i < values.length; i += 1) {
    const value = values[i]!;
    let k = i - 1;
    for (; k >= 0 && values[k]! > value; k -= 1) values[k + 1] = values[k]!;
    values[k + 1] = value;
  }
  return values[values.length >> 1]!;
}
