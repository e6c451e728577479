import { describe, expect, test } from 'vitest';
import { labFromXyz, xyzFromLinear } from '../../../src/core/colour/cielab.ts';
import { linearFromSrgb } from '../../../src/core/colour/srgb.ts';
import { LAB_UNIT } from '../../../src/core/features/logLightness.ts';
import { measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import { hasPixel, type PixelRuns } from '../../../src/core/geometry/pixelRuns.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { growByLikeness, type LikenessField, likenessField } from '../../../src/core/mask/colourLikeness.ts';
import type { RgbaRaster } from '../../../src/core/raster/rgbaRaster.ts';

type Colour = readonly [number, number, number];

function rasterFrom(picture: string, colours: Readonly<Record<string, Colour>>): RgbaRaster {
  const rows = picture.split('/');
  const data = new Uint8ClampedArray(
    rows.flatMap((row) => [...row].flatMap((letter) => [...colours[letter]!, 255])),
  );
  return { widthPx: rows[0]!.length, heightPx: rows.length, data };
}

const pictureOf = (runs: PixelRuns, { widthPx, heightPx }: RgbaRaster) =>
  Array.from({ length: heightPx }, (_, y) =>
    Array.from({ length: widthPx }, (_, x) => (hasPixel(runs, x, y) ? '#' : '.')).join(''),
  ).join('/');

async function fieldOf(
  raster: RgbaRaster,
  seed: readonly [number, number],
  smoothRadiusPx = 0,
  area = measuredArea(raster.widthPx, raster.heightPx),
): Promise<LikenessField> {
  const box = { left: 0, top: 0, right: raster.widthPx, bottom: raster.heightPx };
  const field = await likenessField(raster, area, photoPoint(...seed), { box, smoothRadiusPx });
  if (!field) throw new Error('no field');
  return field;
}

const GREEN: Colour = [80, 120, 40];
const LIGHTER: Colour = [100, 140, 50];
const SOIL: Colour = [120, 90, 70];
const colours = { g: GREEN, l: LIGHTER, s: SOIL };

/** CIE 1976 difference by the formula, which stands tested beside the colour functions. */
function difference(a: Colour, b: Colour): number {
  const lab = ([red, green, blue]: Colour) =>
    labFromXyz(
      xyzFromLinear([linearFromSrgb(red / 255), linearFromSrgb(green / 255), linearFromSrgb(blue / 255)]),
    );
  const [p, q] = [lab(a), lab(b)];
  return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

describe('growth by colour likeness', () => {
  test('takes what is like the seed and connected with it', async () => {
    const raster = rasterFrom('gglssg/ggllsg/sssssg', colours);
    const field = await fieldOf(raster, [0.5, 0.5]);
    const between = difference(GREEN, LIGHTER);
    expect(field.distance[2]! / LAB_UNIT).toBeCloseTo(between, 1);
    expect(pictureOf(growByLikeness(field, { tolerance: between - 0.1 }), raster)).toBe(
      '##..../##..../......',
    );
    expect(pictureOf(growByLikeness(field, { tolerance: between + 0.1 }), raster)).toBe(
      '###.../####../......',
    );
    expect(growByLikeness(field, { tolerance: 200 }).pixels).toBe(18);
    expect(growByLikeness(field, { tolerance: 0 }).pixels).toBe(4);
  });

  test('stops at a sharp edge although the colour beyond is still like the seed', async () => {
    // brightness drifts by small steps, then jumps and comes back near the seed's
    const greys: Record<string, Colour> = {};
    for (const [letter, value] of Object.entries({ a: 100, b: 103, c: 106, d: 109, e: 112, z: 100 })) {
      greys[letter] = [value, value, value];
    }
    const raster = rasterFrom('abcdez/abcdez', greys);
    const field = await fieldOf(raster, [0, 0]);
    expect(pictureOf(growByLikeness(field, { tolerance: 6 }), raster)).toBe('######/######');
    expect(pictureOf(growByLikeness(field, { tolerance: 6, largestStep: 2 }), raster)).toBe('#####./#####.');
    // the same edge met from each side, lying and standing
    const fromRight = await fieldOf(raster, [5, 1]);
    expect(pictureOf(growByLikeness(fromRight, { tolerance: 6, largestStep: 2 }), raster)).toBe(
      '.....#/.....#',
    );
    const standing = rasterFrom('aa/bb/cc/dd/ee/zz', greys);
    const fromTop = await fieldOf(standing, [0, 0]);
    expect(pictureOf(growByLikeness(fromTop, { tolerance: 6, largestStep: 2 }), standing)).toBe(
      '##/##/##/##/##/..',
    );
    const fromBelow = await fieldOf(standing, [1, 5]);
    expect(pictureOf(growByLikeness(fromBelow, { tolerance: 6, largestStep: 2 }), standing)).toBe(
      '../../../../../##',
    );
  });

  test('goes up, down and back', async () => {
    const raster = rasterFrom('gsggg/gsgsg/gggsg/ssssg/ggggg', colours);
    const field = await fieldOf(raster, [0, 0]);
    expect(pictureOf(growByLikeness(field, { tolerance: 1 }), raster)).toBe('#.###/#.#.#/###.#/....#/#####');
  });

  test('smoothing bridges single odd pixels', async () => {
    const raster = rasterFrom('ggggg/ggsgg/ggggg', colours);
    const tolerance = difference(GREEN, SOIL) / 2;
    expect(growByLikeness(await fieldOf(raster, [0, 0], 0), { tolerance }).pixels).toBe(14);
    expect(growByLikeness(await fieldOf(raster, [0, 0], 1), { tolerance }).pixels).toBe(15);
  });

  test('stays within the measured area and the box', async () => {
    const raster = rasterFrom('gggggg/gggggg', colours);
    const ignored = [photoPoint(2, 0), photoPoint(3, 0), photoPoint(3, 2), photoPoint(2, 2)];
    const area = measuredArea(6, 2, { ignored: [ignored] });
    expect(pictureOf(growByLikeness(await fieldOf(raster, [0, 0], 1, area), { tolerance: 9 }), raster)).toBe(
      '##..../##....',
    );
    const box = { left: 3, top: 1, right: 5, bottom: 2 };
    const field = await likenessField(raster, area, photoPoint(4, 1), { box, smoothRadiusPx: 0 });
    expect(pictureOf(growByLikeness(field!, { tolerance: 9 }), raster)).toBe('....../...##.');
    expect(await likenessField(raster, area, photoPoint(2, 0), { box })).toBeNull();
    expect(await likenessField(raster, area, photoPoint(2.5, 1), { box: { ...box, left: 0 } })).toBeNull();
  });

  test('refuses a tolerance that is none', async () => {
    const field = await fieldOf(rasterFrom('g', colours), [0, 0]);
    expect(() => growByLikeness(field, { tolerance: -1 })).toThrow('got -1');
    expect(() => growByLikeness(field, { tolerance: 1, largestStep: Number.NaN })).toThrow('got NaN');
  });
});
