import { beforeAll, describe, expect, it } from 'vitest';
import {
  type CoverModel,
  fitCoverModel,
  type TeachingPhoto,
} from '../../../src/core/classifier/coverModel.ts';
import { heldBackAgreement } from '../../../src/core/classifier/heldBackAgreement.ts';
import { photoLook, sampleCells } from '../../../src/core/classifier/photoLook.ts';
import { classifyWithModel, type TaughtOptions } from '../../../src/core/classifier/taughtModel.ts';
import { type TeachingStroke, trainingSamples } from '../../../src/core/classifier/trainingSamples.ts';
import { extractFeatures } from '../../../src/core/features/featurePlanes.ts';
import { measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import { type PaintedTurf, paintedTurf, strokesOn } from '../../support/paintedTurf.ts';

const ids = DEFAULT_CLASSES.map(({ id }) => id);
const areaOf = ({ raster }: PaintedTurf) => measuredArea(raster.widthPx, raster.heightPx);

async function teaching(
  turf: PaintedTurf,
  photoSha256: string,
  strokes: readonly TeachingStroke[] = strokesOn(turf, ids, 12),
): Promise<TeachingPhoto> {
  const features = await extractFeatures(turf.raster, areaOf(turf));
  return {
    photoSha256,
    look: photoLook(sampleCells(features)),
    samples: trainingSamples(strokes, areaOf(turf), features, ids).samples,
  };
}

function modelOf(...photos: TeachingPhoto[]): CoverModel {
  const fit = fitCoverModel(photos, ids);
  if (!fit.ok) throw new Error(fit.problem.code);
  return fit.model;
}

const classify = (turf: PaintedTurf, model: CoverModel, options: TaughtOptions = {}) =>
  classifyWithModel(
    { raster: turf.raster, area: areaOf(turf), classes: DEFAULT_CLASSES, neutralGains: null },
    model,
    options,
  );

const turf = paintedTurf(240, 160, [0.55, 0.3, 0.15]);
let taught: TeachingPhoto;
let model: CoverModel;
beforeAll(async () => {
  taught = await teaching(turf, 'a');
  model = modelOf(taught);
});

describe('classifyWithModel', () => {
  it('finds the shares of the photo it was taught on, and a mask that agrees with them', async () => {
    const { coverFraction, mask, flags, standardError } = await classify(turf, model, { photoSha256: 'a' });
    coverFraction.forEach((share, c) => {
      expect(Math.abs(share - turf.shares[c]!)).toBeLessThan(0.02);
      const counted = mask.labels.filter((label) => label === c + 1).length / mask.labels.length;
      expect(Math.abs(counted - share)).toBeLessThan(1e-4);
      expect(standardError![c]).toBeGreaterThan(0);
    });
    expect(flags).toEqual([]);
  });

  it('carries over to a photo in other light with other shares', async () => {
    const other = paintedTurf(240, 160, [0.2, 0.7, 0.1], { seed: 2, brightness: 0.8 });
    const { coverFraction } = await classify(other, model, { photoSha256: 'b' });
    coverFraction.forEach((share, c) => {
      expect(Math.abs(share - other.shares[c]!)).toBeLessThan(0.04);
    });
  });

  it('finds hardly anything of a class that the photo does not show', async () => {
    const other = paintedTurf(240, 160, [1, 0, 0], { seed: 3 });
    const { coverFraction } = await classify(other, modelOf(taught, await teaching(turf, 'c')));
    expect(coverFraction[0]).toBeGreaterThan(0.9);
  });

  it('never calls a class without strokes, and says so', async () => {
    const strokes = strokesOn(turf, ids, 12).filter(({ classId }) => classId !== 'weedy-grass');
    const { coverFraction, mask, flags } = await classify(turf, modelOf(await teaching(turf, 'a', strokes)));
    expect(coverFraction[1]).toBe(0);
    expect(mask.labels.includes(2)).toBe(false);
    expect(flags).toContain('class-without-strokes');
  });

  it('works on one labelled pixel a class', async () => {
    const strokes = [
      { classId: ids[0]!, radiusPx: 0, points: [photoPoint(40, 80)] },
      { classId: ids[1]!, radiusPx: 0, points: [photoPoint(170, 80)] },
      { classId: ids[2]!, radiusPx: 0, points: [photoPoint(225, 80)] },
    ];
    const { coverFraction } = await classify(turf, modelOf(await teaching(turf, 'a', strokes)));
    coverFraction.forEach((share, c) => {
      expect(Math.abs(share - turf.shares[c]!)).toBeLessThan(0.15);
    });
  });

  it('gives the same bytes in strips of any height, with kept features, and in any order of photos', async () => {
    const other = await teaching(paintedTurf(240, 160, [0.4, 0.3, 0.3], { seed: 5 }), 'b');
    const both = modelOf(taught, other);
    const whole = await classify(turf, both, { stripRows: 10_000 });
    const strips = await classify(turf, modelOf(other, taught), { stripRows: 64 });
    const kept = await classify(turf, both, {
      features: await extractFeatures(turf.raster, areaOf(turf), { stripRows: 7 }),
    });
    for (const again of [strips, kept]) {
      expect(again.mask.labels).toEqual(whole.mask.labels);
      expect(again.coverFraction).toEqual(whole.coverFraction);
      expect(again.standardError).toEqual(whole.standardError);
    }
  });

  it('flags a photo whose plants look otherwise, with the reason', async () => {
    const bleached = paintedTurf(240, 160, [0.55, 0.3, 0.15], { seed: 6 });
    for (let i = 0; i < bleached.labels.length; i += 1) {
      if (bleached.labels[i] !== 1) continue;
      for (let channel = 0; channel < 3; channel += 1) bleached.raster.data[4 * i + channel]! += 90;
    }
    const { flags, reasons, doubt } = await classify(bleached, model, { photoSha256: 'bleached' });
    expect(flags).toContain('unlike-training');
    expect(doubt).toBeGreaterThan(1);
    expect(reasons[0]!.value).toBeGreaterThanOrEqual(reasons[0]!.limit);
  });

  it('stops where the caller throws between strips', async () => {
    const cancel = () => {
      throw new Error('cancelled');
    };
    await expect(classify(turf, model, { betweenStrips: cancel })).rejects.toThrow('cancelled');
  });

  it('refuses other classes and other features', async () => {
    await expect(classify(turf, { ...model, classes: ['ryegrass', 'clover'] })).rejects.toThrow(
      "the model's classes are ryegrass,clover",
    );
    const other = { ...model, featureSet: 'other' } as unknown as CoverModel;
    await expect(classify(turf, other)).rejects.toThrow('needs the features other');
  });
});

describe('fitCoverModel', () => {
  it('says when nothing or one class alone was painted', () => {
    expect(fitCoverModel([], ids)).toEqual({ ok: false, problem: { code: 'no-strokes' } });
    const onlyGround = { ...taught, samples: taught.samples.filter(({ classIndex }) => classIndex === 2) };
    expect(fitCoverModel([onlyGround], ids)).toEqual({
      ok: false,
      problem: { code: 'one-class-only', classId: 'bare-ground' },
    });
  });

  it('keeps a draw of many cells, the same for the same seed', async () => {
    const strokes = ids.map((classId, c) => ({
      classId,
      radiusPx: 30,
      points: [photoPoint([60, 165, 222][c]!, 80), photoPoint([60, 165, 222][c]!, 90)],
    }));
    const many = await teaching(turf, 'a', strokes);
    const cellsOf = (fitted: CoverModel) =>
      fitted.photos[0]!.parts.reduce((sum, part) => sum + part[0]!.cells, 0);
    expect(cellsOf(modelOf(many))).toBe(600);
    const taughtWith = (seed: number) => JSON.stringify(fitCoverModel([many], ids, { seed }));
    expect(taughtWith(3)).toBe(taughtWith(3));
    expect(taughtWith(3)).not.toBe(taughtWith(4));
  });
});

describe('heldBackAgreement', () => {
  it('is high where kinds differ, and by chance where labels are drawn by lot', () => {
    const honest = heldBackAgreement([taught], 3)!;
    expect(honest.agreement).toBeGreaterThan(0.95);
    expect(honest.cells).toBe(taught.samples.length);
    const shuffledLabels = taught.samples.map((sample) => ({
      ...sample,
      classIndex: (sample.stroke * 7) % 3,
    }));
    expect(heldBackAgreement([{ samples: shuffledLabels }], 3)!.agreement).toBeLessThan(0.6);
  });

  it('is not given where a class has a single stroke', () => {
    const first = taught.samples.filter(({ classIndex, stroke }) => classIndex !== 1 || stroke === 12);
    expect(heldBackAgreement([{ samples: first }], 3)).toBeNull();
  });
});
