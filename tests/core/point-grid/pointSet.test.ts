import { describe, expect, test } from 'vitest';
import { invertHomography, mapPoint } from '../../../src/core/geometry/homography.ts';
import { measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import type { PlotFrame } from '../../../src/core/geometry/plotFrame.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import type { PointCall } from '../../../src/core/point-grid/pointCall.ts';
import { pointPlaces } from '../../../src/core/point-grid/pointPlaces.ts';
import {
  currentPoints,
  type PointSet,
  placePoints,
  plotToPhoto,
  replacePoints,
} from '../../../src/core/point-grid/pointSet.ts';
import {
  designPositions,
  plannedPoints,
  type SamplingDesign,
} from '../../../src/core/point-grid/samplingDesign.ts';
import { spacingAdvice } from '../../../src/core/point-grid/spacingAdvice.ts';
import { repeatableRandom } from '../../../src/core/trial/repeatableRandom.ts';

const [WIDTH, HEIGHT] = [400, 300];
const square = (left: number, top: number, side: number): PlotFrame => ({
  corners: [
    photoPoint(left, top),
    photoPoint(left + side, top),
    photoPoint(left + side, top + side),
    photoPoint(left, top + side),
  ],
  sizeMm: [500, 500],
});
const slanted: PlotFrame = {
  corners: [photoPoint(80, 30), photoPoint(330, 40), photoPoint(380, 280), photoPoint(20, 270)],
  sizeMm: [500, 400],
};
const areaOf = (frame: PlotFrame, ignored: [number, number][][] = []) =>
  measuredArea(WIDTH, HEIGHT, {
    frame,
    ignored: ignored.map((polygon) => polygon.map(([x, y]) => photoPoint(x, y))),
  });

const DESIGNS: SamplingDesign[] = [
  { kind: 'regular-grid', columns: 8, rows: 5 },
  { kind: 'jittered-grid', columns: 8, rows: 5 },
  { kind: 'simple-random', points: 40 },
  { kind: 'transect-lines', lines: 4, pointsPerLine: 10, direction: 'across' },
  { kind: 'transect-lines', lines: 4, pointsPerLine: 10, direction: 'down' },
];

function placed(design: SamplingDesign, frame: PlotFrame, area = areaOf(frame), seed = 7): PointSet {
  const placing = placePoints(design, frame, area, seed);
  if (!placing.ok) throw new Error(placing.code);
  return placing.set;
}

describe.each(DESIGNS)('$kind $direction', (design) => {
  test('has the planned number of points in the frame, the same from the same seed', () => {
    const set = placed(design, slanted);
    expect(set.points).toHaveLength(plannedPoints(design));
    expect(set.leftOut).toBe(0);
    for (const { at } of set.points) {
      expect(at[0]).toBeGreaterThanOrEqual(0);
      expect(at[0]).toBeLessThan(500);
      expect(at[1]).toBeGreaterThanOrEqual(0);
      expect(at[1]).toBeLessThan(400);
    }
    const lines = design.kind === 'transect-lines' ? [0, 1, 2, 3] : [null];
    expect([...new Set(set.points.map(({ line }) => line))]).toEqual(lines);
    expect(placed(design, slanted)).toEqual(set);
    expect(placed(design, slanted, areaOf(slanted), 8).points).not.toEqual(set.points);
  });

  test('every quarter of the ground is hit alike, however the camera was held', () => {
    const quarters = [0, 0, 0, 0];
    const sets = 500;
    for (let seed = 0; seed < sets; seed += 1) {
      for (const [x, y] of designPositions(design, [1, 1], repeatableRandom(seed))) {
        quarters[(x < 0.5 ? 0 : 1) + (y < 0.5 ? 0 : 2)]! += 1;
      }
    }
    // 20,000 points, a quarter each: 5000 with a standard deviation of at most 200 even if whole lines fall alike
    for (const count of quarters) expect(Math.abs(count - 5000)).toBeLessThan(600);
  });

  test('points on ignored ground are left out and counted', () => {
    // the left half of the frame, in the photo
    const frame = square(50, 25, 250);
    const left: [number, number][] = [
      [40, 20],
      [175, 20],
      [175, 280],
      [40, 280],
    ];
    const set = placed(design, frame, areaOf(frame, [left]));
    for (const { at } of set.points) expect(at[0]).toBeGreaterThan(248);
    expect(set.leftOut).toBeGreaterThan(0);
    if (design.kind === 'simple-random') expect(set.points).toHaveLength(40);
    else expect(set.points.length + set.leftOut).toBe(plannedPoints(design));
  });
});

describe('layout', () => {
  test('a regular grid has equal steps in both directions', () => {
    const points = designPositions(
      { kind: 'regular-grid', columns: 5, rows: 4 },
      [500, 400],
      repeatableRandom(3),
    );
    for (const [i, [x, y]] of points.entries()) {
      expect(x - points[0]![0]).toBeCloseTo((i % 5) * 100, 9);
      expect(y - points[0]![1]).toBeCloseTo(Math.floor(i / 5) * 100, 9);
    }
    expect(points[0]![0]).toBeLessThan(100);
  });

  test('a jittered grid has one point in each cell', () => {
    const points = designPositions(
      { kind: 'jittered-grid', columns: 5, rows: 4 },
      [5, 4],
      repeatableRandom(3),
    );
    expect(points.map(([x, y]) => [Math.floor(x), Math.floor(y)])).toEqual(
      Array.from({ length: 20 }, (_, i) => [i % 5, Math.floor(i / 5)]),
    );
  });

  test('transect lines are parallel and equally far apart, with a start of its own each', () => {
    const design = { kind: 'transect-lines', lines: 3, pointsPerLine: 4, direction: 'down' } as const;
    const points = designPositions(design, [300, 400], repeatableRandom(3));
    const lines = [0, 1, 2].map((line) => points.slice(4 * line, 4 * line + 4));
    for (const [line, own] of lines.entries()) {
      for (const [i, [x, y]] of own.entries()) {
        expect(x).toBeCloseTo(lines[0]![0]![0] + 100 * line, 9);
        expect(y).toBeCloseTo(own[0]![1] + 100 * i, 9);
      }
    }
    expect(new Set(lines.map((own) => own[0]![1].toFixed(6))).size).toBe(3);
  });

  test('numbers that cannot be are refused', () => {
    const place = (design: SamplingDesign) => () => placePoints(design, slanted, areaOf(slanted), 1);
    expect(place({ kind: 'simple-random', points: 0 })).toThrow(
      'points must be a whole number, 1 or more, got 0',
    );
    expect(place({ kind: 'regular-grid', columns: 2.5, rows: 3 })).toThrow('columns');
    expect(place({ kind: 'regular-grid', columns: 200, rows: 200 })).toThrow('10000');
    expect(() => placePoints(DESIGNS[0]!, slanted, areaOf(slanted), -1)).toThrow('seed');
  });

  test('a frame in which nothing is measured has no points', () => {
    const frame = square(50, 25, 100);
    const all: [number, number][] = [
      [0, 0],
      [WIDTH, 0],
      [WIDTH, HEIGHT],
      [0, HEIGHT],
    ];
    for (const design of DESIGNS) {
      expect(placePoints(design, frame, areaOf(frame, [all]), 1)).toEqual({
        ok: false,
        code: 'nothing-measured',
      });
    }
  });

  test('without a size of the frame, positions are shares of its sides', () => {
    const set = placed({ kind: 'simple-random', points: 30 }, { ...slanted, sizeMm: null });
    expect(set.extent).toEqual([1, 1]);
    for (const { at } of set.points) expect(Math.max(...at)).toBeLessThan(1);
  });
});

describe('spacing', () => {
  test('a grid closer than plants is advised against, with the number that fits', () => {
    const design = { kind: 'regular-grid', columns: 20, rows: 20 } as const;
    expect(spacingAdvice(design, [500, 500], 40)).toEqual({
      code: 'closer-than-plants',
      spacingMm: 25,
      plantDiameterMm: 40,
      mostPoints: 144,
    });
    expect(spacingAdvice({ ...design, columns: 10, rows: 10 }, [500, 500], 40).code).toBe('wide-enough');
    expect(spacingAdvice({ kind: 'simple-random', points: 100 }, [500, 500], 40)).toMatchObject({
      code: 'chance-neighbours',
      spacingMm: 50,
    });
    expect(spacingAdvice(DESIGNS[3]!, [500, 500], 40)).toMatchObject({ code: 'wide-enough', spacingMm: 50 });
    expect(() => spacingAdvice(design, [500, 500], 0)).toThrow('diameter');
  });
});

describe('a frame that is moved', () => {
  const before = square(50, 25, 250);
  const after = square(130, 25, 250);
  const set = placed({ kind: 'regular-grid', columns: 10, rows: 10 }, before);
  const toPhoto = plotToPhoto(set.extent, before.corners);
  const calls: PointCall[] = set.points
    .filter(({ id }) => id % 2 === 0)
    .map(({ id, at }) => ({
      pointId: id,
      observer: 'K',
      classId: 'ryegrass',
      at: mapPoint<'plot', 'photo'>(toPhoto, at),
      calledAt: '2027-05-17T10:00:00Z',
      gapRule: { kind: 'every-pixel' },
    }));

  test('uncalled points go along, called ones stay where they were looked at', () => {
    const places = new Map(
      pointPlaces(set, calls, after.corners, areaOf(after)).map((place) => [place.id, place]),
    );
    expect(places.size).toBe(100);
    for (const { id, at } of set.points) {
      const [x, y] = mapPoint<'plot', 'photo'>(toPhoto, at);
      const place = places.get(id)!;
      expect(place.at[0]).toBeCloseTo(id % 2 === 0 ? x : x + 80, 9);
      expect(place.at[1]).toBeCloseTo(y, 9);
      expect(place.isOutside).toBe(id % 2 === 0 && Math.floor(place.at[0]) + 0.5 < 130);
    }
  });

  test('points outside are replaced on request, in the ground that was not sampled, and kept', () => {
    const area = areaOf(after);
    const outside = pointPlaces(set, calls, after.corners, area).filter(({ isOutside }) => isOutside);
    // every second column is called, and the second one is the only such left of the moved frame
    expect(outside).toHaveLength(10);
    const replacing = replacePoints(
      set,
      outside.map(({ id }) => id),
      after,
      area,
    );
    if (!replacing.ok) throw new Error(replacing.code);
    expect(replacing.set.points).toHaveLength(100 + outside.length);
    expect(replacing.set.points.slice(0, 100)).toEqual(set.points);
    expect(currentPoints(replacing.set)).toHaveLength(100);
    const places = pointPlaces(replacing.set, calls, after.corners, area);
    expect(places.filter(({ isOutside }) => isOutside)).toEqual([]);
    for (const { id, at } of places) if (id > 100) expect(at[0]).toBeGreaterThan(299);
    // asking again changes nothing
    expect(replacePoints(replacing.set, [outside[0]!.id], after, area)).toEqual(replacing);
  });

  test('in a frame that only shrank, new points fall anywhere in it', () => {
    const smaller = square(50, 25, 150);
    const area = areaOf(smaller);
    const outside = pointPlaces(set, calls, smaller.corners, area).filter(({ isOutside }) => isOutside);
    const replacing = replacePoints(
      set,
      outside.map(({ id }) => id),
      smaller,
      area,
    );
    if (!replacing.ok) throw new Error(replacing.code);
    expect(pointPlaces(replacing.set, calls, smaller.corners, area).some(({ isOutside }) => isOutside)).toBe(
      false,
    );
  });

  test('the map to the photo goes back and forth', () => {
    const map = plotToPhoto([500, 400], slanted.corners);
    const back = mapPoint(invertHomography(map), mapPoint(map, set.points[5]!.at));
    expect(back[0]).toBeCloseTo(set.points[5]!.at[0], 8);
  });
});
