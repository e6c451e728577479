import { expect, test } from 'vitest';
import photos from '../../../sample-images/photos.json' with { type: 'json' };
import { homographyBetween, mapPoint } from '../../../src/core/geometry/homography.ts';
import {
  fillGroundWeights,
  LARGEST_GROUND_WEIGHT,
  measuredArea,
  withoutTransparent,
} from '../../../src/core/geometry/measuredArea.ts';
import { polygonAreaPx } from '../../../src/core/geometry/plotFrame.ts';
import { photoPoint, plotPoint, type Quadrilateral } from '../../../src/core/geometry/points.ts';

const quad = (corners: readonly (readonly number[])[]) =>
  corners.map(([x, y]) => photoPoint(x!, y!)) as unknown as Quadrilateral<'photo'>;
const picture = (inside: Uint8Array, widthPx: number) =>
  Array.from({ length: inside.length / widthPx }, (_, y) =>
    [...inside.subarray(y * widthPx, (y + 1) * widthPx)].map((v) => (v ? '#' : '.')).join(''),
  );

test('a pixel is measured when its centre lies inside', () => {
  const frame = {
    corners: quad([
      [1, 1],
      [41, 1.4],
      [41, 41],
      [1, 41],
    ]),
    sizeMm: null,
  };
  const area = measuredArea(50, 50, { frame });
  expect(area.bounds).toEqual({ left: 1, top: 1, right: 41, bottom: 41 });
  expect(area.measuredPixels).toBe(1600);
});

test('ignored polygons and the neutral reference are left out', () => {
  const triangle = [photoPoint(0, 0), photoPoint(4, 0), photoPoint(0, 4)];
  const area = measuredArea(6, 4, { ignored: [triangle], neutral: [4, 2, 2, 2] });
  expect(picture(area.inside, 6)).toEqual(['...###', '..####', '.###..', '####..']);
  expect(area.measuredPixels).toBe(14);
});

test('everything ignored leaves an empty area', () => {
  const all = [photoPoint(0, 0), photoPoint(6, 0), photoPoint(6, 4), photoPoint(0, 4)];
  const area = measuredArea(6, 4, { ignored: [all] });
  expect([area.measuredPixels, area.bounds]).toEqual([0, { left: 0, top: 0, right: 0, bottom: 0 }]);
});

test('transparent pixels are left out, and an opaque photo costs no copy', () => {
  const area = measuredArea(2, 1);
  expect(withoutTransparent(area, new Uint8ClampedArray([1, 1, 1, 255, 2, 2, 2, 255]))).toBe(area);
  expect([...withoutTransparent(area, new Uint8ClampedArray([0, 0, 0, 0, 2, 2, 2, 255])).inside]).toEqual([
    0, 1,
  ]);
});

test('ground weights follow the area that a pixel maps to', () => {
  const corners = quad([
    [20, 10],
    [80, 14],
    [95, 90],
    [5, 80],
  ]);
  const area = measuredArea(100, 100, { frame: { corners, sizeMm: [500, 400] } });
  const ground = [plotPoint(0, 0), plotPoint(500, 0), plotPoint(500, 400), plotPoint(0, 400)] as const;
  const map = homographyBetween(corners, ground);
  const groundOf = (x: number, y: number) =>
    polygonAreaPx(
      [
        [x, y],
        [x + 1, y],
        [x + 1, y + 1],
        [x, y + 1],
      ].map(([u, v]) => mapPoint(map, photoPoint(u!, v!))),
    );
  const weights = new Int32Array(100);
  let sum = 0;
  let largest = 0;
  let groundSum = 0;
  for (let y = area.bounds.top; y < area.bounds.bottom; y += 1) {
    fillGroundWeights(area, y, weights);
    for (let x = area.bounds.left; x < area.bounds.right; x += 1) {
      if (!area.inside[y * 100 + x]) continue;
      sum += weights[x]!;
      largest = Math.max(largest, weights[x]!);
      groundSum += groundOf(x, y);
    }
  }
  expect(largest).toBeLessThanOrEqual(LARGEST_GROUND_WEIGHT);
  fillGroundWeights(area, 40, weights);
  expect(weights[40]! / sum).toBeCloseTo(groundOf(40, 40) / groundSum, 7);
  // the pixels together cover the frame's 0.2 square metres, but for its ragged edge
  expect(groundSum).toBeGreaterThan(0.98 * 200_000);
  expect(groundSum).toBeLessThan(1.02 * 200_000);
});

test('the sample photos: pixels inside the frame as the renderer counted them', () => {
  for (const { frame, greyCard, measuredPixels, widthPx, heightPx, frameSizeMm } of photos.photos) {
    if (greyCard) continue; // the truth leaves out the whole card, the rectangle only its inside
    const sizeMm = [frameSizeMm[0]!, frameSizeMm[1]!] as const;
    const area = measuredArea(widthPx, heightPx, { frame: { corners: quad(frame), sizeMm } });
    expect(Math.abs(area.measuredPixels - measuredPixels) / measuredPixels).toBeLessThan(0.03);
    expect(area.millimetresPerPixel!).toBeGreaterThan(0.7);
    expect(area.millimetresPerPixel!).toBeLessThan(1);
  }
});

test('a small frame whose horizon passes between it and the origin of the photo', () => {
  const corners = quad([
    [700, 300],
    [760, 290],
    [790, 400],
    [680, 390],
  ]);
  const shifted = quad([
    [100, 300],
    [160, 290],
    [190, 400],
    [80, 390],
  ]);
  const share = (area: ReturnType<typeof measuredArea>, left: number) => {
    const weights = new Int32Array(area.widthPx);
    let sum = 0;
    let upper = 0;
    for (let y = area.bounds.top; y < area.bounds.bottom; y += 1) {
      fillGroundWeights(area, y, weights);
      for (let x = area.bounds.left; x < area.bounds.right; x += 1) {
        if (area.inside[y * area.widthPx + x] === 0) continue;
        sum += weights[x]!;
        if (x < left) upper += weights[x]!;
      }
    }
    return upper / sum;
  };
  const far = share(measuredArea(1000, 750, { frame: { corners, sizeMm: [500, 500] } }), 735);
  const near = share(measuredArea(1000, 750, { frame: { corners: shifted, sizeMm: [500, 500] } }), 135);
  expect(far).toBeCloseTo(near, 5);
});
