import { expect, test } from 'vitest';
import { coverOfMask } from '../../../src/core/cover/coverOfMask.ts';
import { type MeasureSettings, measurePhoto, preparePhoto } from '../../../src/core/cover/measurePhoto.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import type { GapRule } from '../../../src/core/trial/trial.ts';
import { firstDifference } from '../../support/firstDifference.ts';
import { syntheticTurf, TURF_COLOURS } from '../../support/syntheticTurf.ts';

const { dark, light, ground } = TURF_COLOURS;
/** One mm a pixel nearly; a wide bare patch, narrow bare cracks, two kinds of grass. */
const raster = syntheticTurf(420, 320, (x, y) =>
  (x - 100) ** 2 + (y - 100) ** 2 < 40 ** 2 || x % 53 < 6 ? ground : x < 210 ? dark : light,
);
const TILTED = [photoPoint(20, 20), photoPoint(400, 20), photoPoint(418, 310), photoPoint(2, 310)] as const;
const settings = (
  gapRule?: GapRule,
  sizeMm: readonly [number, number] | null = [400, 300],
): MeasureSettings => ({
  classes: DEFAULT_CLASSES,
  frame: { corners: TILTED, sizeMm },
  ignored: [],
  neutral: null,
  ...(gapRule && { gapRule }),
});
const TWELVE_MM: GapRule = { kind: 'small-patches-to-surroundings', smallerThanMm: 12 };

async function measured(with_: MeasureSettings, stripRows?: number) {
  const result = await measurePhoto(raster, with_, stripRows === undefined ? {} : { stripRows });
  if (!result.ok) throw new Error(result.problem.code);
  return result.measurement;
}

test('the wide patch stays, cracks go to the grass beside them, and the figure is that of the mask', async () => {
  const [every, ruled] = [await measured(settings()), await measured(settings(TWELVE_MM))];
  const preparation = preparePhoto(raster, settings());
  if (!preparation.ok) throw new Error(preparation.problem.code);
  const counted = coverOfMask(ruled.mask, preparation.area, 3)!;
  expect(ruled.cover).toEqual(counted.map((share, i) => ({ classId: DEFAULT_CLASSES[i]!.id, ...share })));
  expect(ruled.cover.reduce((sum, { pixels }) => sum + pixels, 0)).toBe(ruled.measuredPixels);

  const at = ({ mask }: typeof ruled, x: number, y: number) => mask.labels[y * 420 + x];
  expect([at(every, 100, 100), at(ruled, 100, 100)]).toEqual([3, 3]);
  expect([at(every, 321, 250), at(ruled, 321, 250)]).toEqual([3, 2]);
  expect([at(every, 161, 250), at(ruled, 161, 250)]).toEqual([3, 1]);
  // the patch alone: pi * 40^2 of the 400 x 300 mm, less the grass it lost to nothing
  const patch = (Math.PI * 40 ** 2) / (395 * 290);
  expect(ruled.cover[2]!.coverFraction).toBeGreaterThan(0.7 * patch);
  expect(ruled.cover[2]!.coverFraction).toBeLessThan(1.6 * patch);
  expect(every.cover[2]!.coverFraction).toBeGreaterThan(ruled.cover[2]!.coverFraction + 0.05);
});

test.each([1, 64, 10_000])('in strips of %i rows the labels are the same', async (stripRows) => {
  const whole = await measured(settings(TWELVE_MM));
  const inStrips = await measured(settings(TWELVE_MM), stripRows);
  expect(firstDifference(whole.mask.labels, inStrips.mask.labels)).toBeNull();
});

test('every pixel is what it is without a rule', async () => {
  const [without, every] = [await measured(settings()), await measured(settings({ kind: 'every-pixel' }))];
  expect(firstDifference(without.mask.labels, every.mask.labels)).toBeNull();
  expect(every.flags).toEqual(without.flags);
});

test('without a scale every pixel counts, and the figure says so', async () => {
  const [without, asked] = [
    await measured(settings(undefined, null)),
    await measured(settings(TWELVE_MM, null)),
  ];
  expect(asked.flags).toEqual([...without.flags, 'gap-rule-needs-scale']);
  expect(firstDifference(without.mask.labels, asked.mask.labels)).toBeNull();
});
