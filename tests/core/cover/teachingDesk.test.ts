import { describe, expect, test } from 'vitest';
import { type MeasureSettings, measurePhoto } from '../../../src/core/cover/measurePhoto.ts';
import { type NamedStroke, TeachingDesk } from '../../../src/core/cover/teachingDesk.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import { paintedTurf, strokesOn } from '../../support/paintedTurf.ts';

const classIds = DEFAULT_CLASSES.map(({ id }) => id);
const settings: MeasureSettings = { classes: DEFAULT_CLASSES, frame: null, ignored: [], neutral: null };
const turf = paintedTurf(240, 160, [0.5, 0.3, 0.2]);
const strokes: NamedStroke[] = strokesOn(turf, classIds, 10).map((stroke, i) => ({ ...stroke, id: `s${i}` }));

async function deskWith(own: readonly NamedStroke[], photoId = 'a'): Promise<TeachingDesk> {
  const desk = new TeachingDesk();
  const photo = { photoId, photoSha256: photoId, settings, strokes: own, isOpen: true };
  expect(await desk.put(turf.raster, photo)).toMatchObject({ ok: true, problems: [] });
  return desk;
}

describe('TeachingDesk', () => {
  test('what it shows of a photo are the shares that measuring it with the model gives', async () => {
    const desk = await deskWith(strokes);
    expect(desk.teach(['a'], classIds)).toMatchObject({ ok: true, classesWithoutStrokes: [] });
    const whole = desk.apply('a', 'whole')!;
    const taught = { id: 'm', model: desk.model! };
    const result = await measurePhoto(
      turf.raster,
      { ...settings, modelId: 'm' },
      { taught, photoSha256: 'a' },
    );
    if (!result.ok) throw new Error(result.problem.code);
    const { cover, mask, modelId } = result.measurement;
    expect(modelId).toBe('m');
    cover.forEach(({ coverFraction }, c) => {
      expect(coverFraction).toBeCloseTo(whole.coverFraction[c]!, 4);
    });
    expect(whole.placed).toMatchObject({ leftPx: 0, topPx: 0, cellPx: 1 });
    expect(whole.placed.mask.labels).toEqual(mask.labels);
    expect(desk.apply('a', 'small')!.coverFraction).toEqual(whole.coverFraction);
  });

  test('repainting teaches the same as reading the photo with those strokes, in either order', async () => {
    const desk = await deskWith([]);
    expect(desk.teach(['a'], classIds)).toEqual({ ok: false, problem: { code: 'no-strokes' } });
    expect(desk.apply('a', 'preview')).toBeNull();
    desk.repaint('a', strokes.slice(0, 5));
    desk.repaint('a', strokes);
    desk.teach(['a'], classIds);
    const other = await deskWith(strokes);
    other.teach(['a'], classIds);
    expect(desk.model).toEqual(other.model);
  });

  test('strokes beside the photo are told, and of two classes one is not enough', async () => {
    const desk = await deskWith([]);
    const beside = { id: 'x', classId: classIds[0]!, radiusPx: 1, points: [photoPoint(-50, -50)] };
    expect(desk.repaint('a', [beside])).toEqual([
      { code: 'stroke-outside', stroke: 0, classId: classIds[0] },
    ]);
    desk.repaint('a', strokes.slice(0, 4));
    expect(desk.teach(['a'], classIds)).toEqual({
      ok: false,
      problem: { code: 'one-class-only', classId: classIds[0] },
    });
    expect(desk.repaint('b', strokes)).toBeNull(); // another photo is open
  });

  test('another photo follows without having been painted on', async () => {
    const desk = await deskWith(strokes);
    const other = paintedTurf(240, 160, [0.2, 0.6, 0.2], { seed: 4 });
    const photo = { photoId: 'b', photoSha256: 'b', settings, strokes: [], isOpen: false };
    await desk.put(other.raster, photo);
    desk.teach(['a', 'b'], classIds);
    desk.apply('b', 'small')!.coverFraction.forEach((share, c) => {
      expect(Math.abs(share - other.shares[c]!)).toBeLessThan(0.05);
    });
    expect(desk.apply('b', 'whole')).toBeNull(); // its planes are not kept in full
  });
});

test('measuring refuses a model that the settings do not name', async () => {
  const desk = await deskWith(strokes);
  desk.teach(['a'], classIds);
  const taught = { id: 'm', model: desk.model! };
  await expect(measurePhoto(turf.raster, settings, { taught })).rejects.toThrow(
    'the settings name the model null',
  );
  await expect(measurePhoto(turf.raster, { ...settings, modelId: 'm' })).rejects.toThrow(RangeError);
});
