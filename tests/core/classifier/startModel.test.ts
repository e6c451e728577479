import { describe, expect, it } from 'vitest';
import type { Classification, ClassifyOptions } from '../../../src/core/classifier/classification.ts';
import { classifyWithStartModel } from '../../../src/core/classifier/startModel.ts';
import { coverOfMask } from '../../../src/core/cover/coverOfMask.ts';
import { type MeasuredArea, measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import type { RgbaRaster } from '../../../src/core/raster/rgbaRaster.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import { type Rgb, syntheticTurf, TURF_COLOURS } from '../../support/syntheticTurf.ts';

const { dark, light, ground } = TURF_COLOURS;
const WIDTH = 400;
const HEIGHT = 300;

const classify = (
  raster: RgbaRaster,
  area: MeasuredArea = measuredArea(raster.widthPx, raster.heightPx),
  options: ClassifyOptions = {},
): Promise<Classification> =>
  classifyWithStartModel({ raster, area, classes: DEFAULT_CLASSES, neutralGains: null }, options);

const percent = ({ coverFraction }: Classification): number[] => coverFraction.map((share) => 100 * share);

/** The first part left of a share of the width, the second right of it. */
const sideBySide =
  (first: Rgb, second: Rgb, share: number) =>
  (x: number): Rgb =>
    x < share * WIDTH ? first : second;

describe('shares at the ends', () => {
  it('is all one class on flat colours', async () => {
    const grass = await classify(syntheticTurf(WIDTH, HEIGHT, () => dark, { texture: 0 }));
    expect(grass.coverFraction).toEqual([1, 0, 0]);
    expect(grass.flags).toEqual(['no-ground', 'no-second-kind']);
    const bare = await classify(syntheticTurf(WIDTH, HEIGHT, () => ground, { texture: 0 }));
    expect(bare.coverFraction).toEqual([0, 0, 1]);
    expect(bare.flags).toEqual(['no-vegetation']);
  });

  it('gives a class that only strokes can show 0, and says so', async () => {
    const raster = syntheticTurf(WIDTH, HEIGHT, sideBySide(dark, ground, 0.5));
    const area = measuredArea(WIDTH, HEIGHT);
    const seedheads = { ...DEFAULT_CLASSES[1]!, id: 'seedheads', startRole: null };
    const own = [seedheads, ...DEFAULT_CLASSES];
    const { coverFraction, flags } = await classifyWithStartModel({
      raster,
      area,
      classes: own,
      neutralGains: null,
    });
    const without = await classify(raster);
    expect(coverFraction).toEqual([0, ...without.coverFraction]);
    expect(flags).toEqual(['class-without-strokes', ...without.flags]);
  });

  it('finds only small gaps where all is textured grass of one kind', async () => {
    const result = await classify(syntheticTurf(WIDTH, HEIGHT, () => dark));
    expect(result.flags).toEqual(['no-ground', 'no-second-kind']);
    expect(result.coverFraction[1]).toBe(0);
    expect(percent(result)[2]).toBeLessThan(2.5);
  });

  it('finds no grass on textured ground', async () => {
    const result = await classify(syntheticTurf(WIDTH, HEIGHT, () => ground));
    expect(result.coverFraction).toEqual([0, 0, 1]);
  });

  it.each([1, 5, 50, 95, 99])('comes within 2.5 points of %i %% ground', async (share) => {
    const result = await classify(syntheticTurf(WIDTH, HEIGHT, sideBySide(ground, dark, share / 100)));
    expect(Math.abs(percent(result)[2]! - share)).toBeLessThan(2.5);
  });

  it.each([3, 10, 50, 90])('comes within 4 points of %i %% light grass', async (share) => {
    const result = await classify(syntheticTurf(WIDTH, HEIGHT, sideBySide(light, dark, share / 100)));
    expect(Math.abs(percent(result)[1]! - share)).toBeLessThan(4);
    expect(result.flags).not.toContain('no-second-kind');
  });

  it('tells three classes', async () => {
    const parts = (x: number, y: number): Rgb => (y < 60 ? ground : x < 100 ? light : dark);
    const result = await classify(syntheticTurf(WIDTH, HEIGHT, parts));
    const [darkShare, lightShare, groundShare] = percent(result);
    expect(Math.abs(groundShare! - 20)).toBeLessThan(2.5);
    expect(Math.abs(lightShare! - 20)).toBeLessThan(4);
    expect(Math.abs(darkShare! - 60)).toBeLessThan(4);
    expect(result.flags).toEqual([]);
  });
});

describe('what it says of itself', () => {
  it('has no colour to go by in a grey photo', async () => {
    const { flags } = await classify(syntheticTurf(WIDTH, HEIGHT, () => [120, 120, 120]));
    expect(flags).toContain('no-colour');
  });

  it('calls single pale plants a seedling stand', async () => {
    const plants = (x: number, y: number): Rgb => (x % 20 < 4 && y % 20 < 4 ? [178, 196, 120] : ground);
    const result = await classify(syntheticTurf(WIDTH, HEIGHT, plants));
    expect(result.flags).toContain('seedling-stand');
    expect(result.coverFraction[1]).toBe(0);
  });

  it('has too few pixels in a tiny area, and survives one pixel', async () => {
    const tiny = await classify(syntheticTurf(40, 40, () => dark));
    expect(tiny.flags).toContain('too-few-pixels');
    const one = await classify(syntheticTurf(1, 1, () => dark));
    expect(one.coverFraction.reduce((sum, share) => sum + share, 0)).toBe(1);
  });
});

describe('the mask', () => {
  const frame = {
    corners: [photoPoint(40, 20), photoPoint(370, 35), photoPoint(350, 290), photoPoint(60, 270)] as const,
    sizeMm: [500, 400] as const,
  };
  const parts = (x: number, y: number): Rgb =>
    (x - 120) ** 2 + (y - 90) ** 2 < 2500 ? ground : (x + y) % 160 < 50 ? light : dark;
  const raster = syntheticTurf(WIDTH, HEIGHT, parts, { seed: 7 });
  const area = measuredArea(WIDTH, HEIGHT, { frame });

  it('has the shares that are reported, each pixel weighted by its ground', async () => {
    const { mask, coverFraction } = await classify(raster, area);
    const counted = coverOfMask(mask, area, DEFAULT_CLASSES.length)!;
    for (const [index, { coverFraction: share }] of counted.entries()) {
      expect(Math.abs(share - coverFraction[index]!)).toBeLessThan(1e-4);
    }
  });

  it('labels what is measured and nothing else', async () => {
    const { mask } = await classify(raster, area);
    expect(mask.labels.every((label, pixel) => label > 0 === (area.inside[pixel] === 1))).toBe(true);
  });

  it.each([1, 64, 256, 10_000])('has the same bytes in strips of %i rows', async (stripRows) => {
    const whole = await classify(raster, area);
    const strips = await classify(raster, area, { stripRows });
    expect(strips.mask.labels).toEqual(whole.mask.labels);
    expect(strips.coverFraction).toEqual(whole.coverFraction);
  });

  it('does not change with what lies outside the measured area', async () => {
    const painted = { ...raster, data: raster.data.slice() };
    for (let pixel = 0; pixel < WIDTH * HEIGHT; pixel += 1) {
      if (area.inside[pixel] === 0) painted.data.fill(255, 4 * pixel, 4 * pixel + 4);
    }
    const before = await classify(raster, area);
    const after = await classify(painted, area);
    expect(after.mask.labels).toEqual(before.mask.labels);
  });

  it('stays close when the light or the white balance changes', async () => {
    const before = percent(await classify(raster, area));
    for (const factors of [
      [0.75, 0.75, 0.75],
      [1.05, 1, 0.9],
      [0.92, 1, 1.08],
    ]) {
      const data = raster.data.map((byte, at) => (at % 4 === 3 ? byte : Math.round(byte * factors[at % 4]!)));
      const after = percent(await classify({ ...raster, data }, area));
      for (const [index, share] of after.entries()) expect(Math.abs(share - before[index]!)).toBeLessThan(3);
    }
  });
});

describe('classes of the run', () => {
  const raster = syntheticTurf(WIDTH, HEIGHT, (x) => (x < 100 ? ground : x < 200 ? light : dark));
  const only = (...roles: (string | null)[]) =>
    classifyWithStartModel({
      raster,
      area: measuredArea(WIDTH, HEIGHT),
      classes: DEFAULT_CLASSES.filter(({ startRole }) => roles.includes(startRole)),
      neutralGains: null,
    });

  it('puts all grass to the one grass class there is', async () => {
    const { coverFraction } = await only('dark-grass', 'ground');
    expect(coverFraction).toHaveLength(2);
    expect(coverFraction[0]).toBeGreaterThan(0.7);
    const light = await only('light-grass', 'ground');
    expect(light.coverFraction[0]).toBeCloseTo(coverFraction[0]!, 6);
  });

  it('keeps the order of the classes', async () => {
    const reversed = [...DEFAULT_CLASSES].reverse();
    const area = measuredArea(WIDTH, HEIGHT);
    const usual = await classify(raster, area);
    const turned = await classifyWithStartModel({ raster, area, classes: reversed, neutralGains: null });
    expect([...turned.coverFraction].reverse()).toEqual(usual.coverFraction);
  });

  it('refuses a run without any class that it can find', async () => {
    await expect(only(null)).rejects.toThrow('the start model needs a class with the role');
  });
});

it('stops when a strip is told to', async () => {
  const raster = syntheticTurf(WIDTH, HEIGHT, () => dark);
  const betweenStrips = (): void => {
    throw new DOMException('cancelled', 'AbortError');
  };
  await expect(classify(raster, undefined, { betweenStrips })).rejects.toThrow('cancelled');
});
