import { expect, test } from 'vitest';
import { fitCoverModel } from '../../../src/core/classifier/coverModel.ts';
import { type MeasureSettings, measurePhoto } from '../../../src/core/cover/measurePhoto.ts';
import { teachOnPhoto } from '../../../src/core/cover/teachOnPhoto.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { newCoverClass, withClass } from '../../../src/core/trial/classList.ts';
import type { CoverClass } from '../../../src/core/trial/coverClass.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import { seededRandom } from '../../support/seededRandom.ts';

const KINDS = ['green-base-turf', 'seedheads', 'broadleaf-weeds'] as const;
const classes = KINDS.reduce<readonly CoverClass[]>(
  (list, kind) => withClass(list, newCoverClass(list, kind, kind)),
  DEFAULT_CLASSES,
);
const settings: MeasureSettings = { classes, frame: null, ignored: [], neutral: null };

/** Upright bands of five kinds with noise: dark, light, ground, pale, bluish. The sixth class is nowhere. */
const SHARES = [0.35, 0.25, 0.15, 0.15, 0.1];
const COLOURS = [
  [52, 92, 44],
  [112, 148, 62],
  [118, 96, 74],
  [196, 188, 140],
  [62, 120, 110],
] as const;
const [WIDTH, HEIGHT] = [300, 160];
const borders = SHARES.map((_, i) => Math.round(WIDTH * SHARES.slice(0, i + 1).reduce((a, b) => a + b)));

const random = seededRandom(4);
const data = new Uint8ClampedArray(4 * WIDTH * HEIGHT);
for (let pixel = 0; pixel < WIDTH * HEIGHT; pixel += 1) {
  const noise = (random() + random() + random() - 1.5) * 25;
  const kind = borders.findIndex((border) => pixel % WIDTH < border);
  COLOURS[kind]!.forEach((value, channel) => {
    data[4 * pixel + channel] = value + noise;
  });
  data[4 * pixel + 3] = 255;
}
const raster = { widthPx: WIDTH, heightPx: HEIGHT, data };

test('six classes are taught, five are found, and the one without strokes is 0 and flagged', async () => {
  const strokes = COLOURS.flatMap((_, kind) =>
    [20, 60, 100, 140].map((y) => ({
      classId: classes[kind]!.id,
      radiusPx: 3,
      points: [photoPoint(((borders[kind - 1] ?? 0) + borders[kind]!) / 2, y)],
    })),
  );
  const taught = await teachOnPhoto(raster, settings, strokes, { photoSha256: 'a' });
  if (!taught.ok) throw new Error(taught.problem.code);
  expect(taught.problems).toEqual([]);
  const fit = fitCoverModel(
    [taught.teaching],
    classes.map(({ id }) => id),
  );
  if (!fit.ok) throw new Error(fit.problem.code);
  expect(fit.classesWithoutStrokes).toEqual(['broadleaf-weeds']);
  const named = { id: 'ab'.repeat(32), model: fit.model };
  const result = await measurePhoto(
    raster,
    { ...settings, modelId: named.id },
    { taught: named, photoSha256: 'a' },
  );
  if (!result.ok) throw new Error(result.problem.code);
  const { cover, flags } = result.measurement;
  cover.slice(0, 5).forEach(({ coverFraction }, kind) => {
    expect(Math.abs(coverFraction - SHARES[kind]!), classes[kind]!.id).toBeLessThan(0.03);
  });
  expect(cover[5]).toEqual({ classId: 'broadleaf-weeds', pixels: 0, coverFraction: 0 });
  expect(flags).toContain('class-without-strokes');
});
