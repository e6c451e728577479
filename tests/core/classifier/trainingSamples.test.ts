import { beforeAll, describe, expect, it } from 'vitest';
import { independentCells, trainingSamples } from '../../../src/core/classifier/trainingSamples.ts';
import { extractFeatures, type FeaturePlanes } from '../../../src/core/features/featurePlanes.ts';
import { measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { paintedTurf } from '../../support/paintedTurf.ts';

const ids = ['ryegrass', 'weedy-grass', 'bare-ground'];
const turf = paintedTurf(40, 30, [0.5, 0.25, 0.25]);
const area = measuredArea(40, 30, {
  ignored: [[photoPoint(0, 0), photoPoint(10, 0), photoPoint(10, 30), photoPoint(0, 30)]],
});
let features: FeaturePlanes;
beforeAll(async () => {
  features = await extractFeatures(turf.raster, area);
});
const stroke = (classId: string, radiusPx: number, ...points: [number, number][]) => ({
  classId,
  radiusPx,
  points: points.map(([x, y]) => photoPoint(x, y)),
});
const read = (...strokes: ReturnType<typeof stroke>[]) => trainingSamples(strokes, area, features, ids);

describe('trainingSamples', () => {
  it('labels the pixel (floor x, floor y) of each point when the radius is 0', () => {
    const { samples, problems } = read(stroke('weedy-grass', 0, [12.9, 3.2], [13, 3.99], [12.1, 3.7]));
    expect(problems).toEqual([]);
    expect(samples.map(({ column, row }) => [column + 10, row])).toEqual([
      [12, 3],
      [13, 3],
    ]);
    expect(samples.every(({ classIndex, features: own }) => classIndex === 1 && own.length === 9)).toBe(true);
  });

  it('labels a disc round each point of the line', () => {
    // by hand: centres within 1 of (20, 10) are the four pixels that meet there; the line goes on for 2 pixels
    const { samples } = read(stroke('ryegrass', 1, [20, 10], [22, 10]));
    expect(samples.map(({ column, row }) => `${column + 10},${row}`)).toEqual([
      ...['19,9', '20,9', '21,9', '22,9'],
      ...['19,10', '20,10', '21,10', '22,10'],
    ]);
  });

  it('says what lies outside the measured area and uses the rest', () => {
    const { samples, problems } = read(
      stroke('ryegrass', 0, [3, 3]),
      stroke('ryegrass', 0, [-5, 900]),
      stroke('ryegrass', 0, [9.5, 5], [10.5, 5]),
    );
    expect(samples).toHaveLength(1);
    expect(problems).toEqual([
      { code: 'stroke-outside', stroke: 0, classId: 'ryegrass' },
      { code: 'stroke-outside', stroke: 1, classId: 'ryegrass' },
      { code: 'stroke-partly-outside', stroke: 2, classId: 'ryegrass', pixels: 1 },
    ]);
  });

  it('gives a cell painted with two classes to neither', () => {
    const { samples, problems } = read(
      stroke('ryegrass', 0, [20, 5], [21, 5]),
      stroke('bare-ground', 0, [21, 5], [22, 5]),
      stroke('ryegrass', 0, [21, 5]),
    );
    expect(samples.map(({ column, classIndex }) => [column + 10, classIndex])).toEqual([
      [20, 0],
      [22, 2],
    ]);
    expect(problems).toEqual([{ code: 'cells-contradict', cells: 1 }]);
  });

  it('names a stroke of a class the run does not have', () => {
    const { samples, problems } = read(stroke('clover', 0, [20, 5]));
    expect(samples).toEqual([]);
    expect(problems).toEqual([{ code: 'stroke-class-unknown', stroke: 0, classId: 'clover' }]);
  });

  it('counts cells near each other once', () => {
    const { samples } = read(stroke('ryegrass', 0, [12, 4], [13, 4], [14, 5], [30, 20]));
    // cells 2, 3 and 4 of rows 4 and 5: squares of 4 cells number 0,1 and 1,1; and one far away
    expect(independentCells(samples)).toBe(3);
  });
});
