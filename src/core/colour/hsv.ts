import type { Triple } from './cielab.ts';

/**
 * Hue, saturation and value of encoded sRGB 0..1.
 *
 * @returns hue in degrees 0..360, or null for a grey, which has none; saturation and value 0..1
 * @see Smith 1978, Color gamut transform pairs (hexcone)
 */
export function hsvFromSrgb([red, green, blue]: Triple): {
  readonly hueDegrees: number | null;
  readonly saturation: number;
  readonly value: number;
} {
  const value = Math.max(red, green, blue);
  const range = value - Math.min(red, green, blue);
  if (range === 0) return { hueDegrees: null, saturation: 0, value };
  const sixth =
    value === red
      ? ((green - blue) / range + 6) % 6
      : value === green
        ? (blue - red) / range + 2
        : (red - green) / range + 4;
  return { hueDegrees: 60 * sixth, saturation: range / value, value };
}
