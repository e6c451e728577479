import { parseColour } from '../canvas/colours.ts';

/** From little to much: pale to dark through one run of hues, lightness falling evenly, so that it reads in grey too. */
const STOPS = ['#f3efdf', '#c5d3b8', '#7fae9f', '#3e7f8a', '#1d4f6b', '#10263f'] as const;

/** Colour of a share of the scale. @param share 0..1 */
export function shade(share: number): string {
  const place = Math.min(1, Math.max(0, share)) * (STOPS.length - 1);
  const index = Math.min(STOPS.length - 2, Math.floor(place));
  const [from, to] = [parseColour(STOPS[index]!), parseColour(STOPS[index + 1]!)];
  const mixed = from.map((channel, i) => Math.round(channel + (to[i]! - channel) * (place - index)));
  return `#${mixed.map((channel) => channel.toString(16).padStart(2, '0')).join('')}`;
}
