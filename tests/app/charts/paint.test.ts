import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { contrastRatio, inkOn, parseColour } from '../../../src/app/canvas/colours.ts';
import { onPaper, SERIES_COLOURS, seriesPaint } from '../../../src/app/charts/paint.ts';
import { shade } from '../../../src/app/charts/shade.ts';

const css = readFileSync(new URL('../../../src/app/charts/Figure.module.css', import.meta.url), 'utf8');
const onScreen = [...css.matchAll(/--chart-series-(\d): light-dark\((#\w+), (#\w+)\)/g)].map((match) => ({
  index: Number(match[1]),
  light: match[2]!,
  dark: match[3]!,
}));
const tokens = readFileSync(new URL('../../../src/app/styles/tokens.css', import.meta.url), 'utf8');
const sheet = /--sheet: light-dark\((#\w+), (#\w+)\)/.exec(tokens)!;

/** Full protanopia and deuteranopia on linear RGB. Machado, Oliveira & Fernandes 2009, IEEE TVCG 15:1291 (from memory). */
const VISION = {
  normal: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanope: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranope: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
} as const;

/** CIELAB (D65) of a colour as an eye of that kind has it. */
function labSeen(colour: string, vision: keyof typeof VISION): readonly number[] {
  const linear = parseColour(colour).map((byte) => {
    const share = byte / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  const [r, g, b] = VISION[vision].map((row) =>
    Math.min(1, Math.max(0, row[0] * linear[0]! + row[1] * linear[1]! + row[2] * linear[2]!)),
  ) as [number, number, number];
  const [x, y, z] = [
    (0.4124564 * r + 0.3575761 * g + 0.1804375 * b) / 0.95047,
    0.2126729 * r + 0.7151522 * g + 0.072175 * b,
    (0.0193339 * r + 0.119192 * g + 0.9503041 * b) / 1.08883,
  ].map((t) => (t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116)) as [number, number, number];
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

const palettes = [
  ['light', onScreen.map(({ light }) => light), sheet[1]!],
  ['dark', onScreen.map(({ dark }) => dark), sheet[2]!],
] as const;

test('the light colours of the page are those for paper', () => {
  expect(onScreen.map(({ light }) => light)).toEqual(SERIES_COLOURS);
});

test.each(palettes)('%s: each colour of a treatment stands out from its ground', (_, palette, ground) => {
  for (const colour of palette) expect(contrastRatio(colour, ground)).toBeGreaterThanOrEqual(3);
});

test.each(palettes)('%s: any two treatments look different to three kinds of eye', (_, palette) => {
  expect(palette).toHaveLength(6);
  for (const vision of ['normal', 'protanope', 'deuteranope'] as const) {
    const seen = palette.map((colour) => labSeen(colour, vision));
    const least = Math.min(
      ...seen.flatMap((a, i) =>
        seen.slice(0, i).map((b) => Math.hypot(...a.map((value, k) => value - b[k]!))),
      ),
    );
    // a difference of 1 is just seen side by side; 30 is plain from afar
    expect(least, vision).toBeGreaterThan(30);
  }
});

test('shades get darker evenly, and words on them can be read', () => {
  const shades = Array.from({ length: 51 }, (_, step) => shade(step / 50));
  const lightness = shades.map((colour) => labSeen(colour, 'normal')[0]!);
  for (let i = 1; i < lightness.length; i++) expect(lightness[i]!).toBeLessThan(lightness[i - 1]!);
  for (const colour of shades) expect(contrastRatio(colour, inkOn(colour))).toBeGreaterThanOrEqual(4.5);
});

test('on paper every property gives way to its colour', () => {
  expect(onPaper(`<path stroke="${seriesPaint(7)}" fill="none"/>`)).toBe(
    `<path stroke="${SERIES_COLOURS[1]}" fill="none"/>`,
  );
});
