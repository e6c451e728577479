import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { homographyBetween, mapPoint } from '../../../src/core/geometry/homography.ts';
import { measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import { collectRuns, hasPixel } from '../../../src/core/geometry/pixelRuns.ts';
import { polygonAreaPx } from '../../../src/core/geometry/plotFrame.ts';
import { photoPoint, plotPoint } from '../../../src/core/geometry/points.ts';
import { brushRadiusPx } from '../../../src/core/mask/brushRadius.ts';
import { type BrushPoint, forEachBrushRun } from '../../../src/core/mask/brushRuns.ts';
import { beginStroke } from '../../../src/core/mask/brushStroke.ts';
import { beginEdit, finishEdit } from '../../../src/core/mask/maskEdit.ts';
import { maskFrom, pictureOf } from './maskPictures.ts';

const point = (x: number, y: number, radiusPx: number): BrushPoint => ({ at: photoPoint(x, y), radiusPx });

const covered = (from: BrushPoint, to: BrushPoint, widthPx: number, heightPx: number) =>
  collectRuns((visit) => forEachBrushRun(from, to, widthPx, heightPx, visit));

function picture(from: BrushPoint, to: BrushPoint, widthPx: number, heightPx: number): string {
  const runs = covered(from, to, widthPx, heightPx);
  return Array.from({ length: heightPx }, (_, y) =>
    Array.from({ length: widthPx }, (_, x) => (hasPixel(runs, x, y) ? '#' : '.')).join(''),
  ).join('/');
}

describe('what a brush covers', () => {
  test('a disc: centres within the radius', () => {
    const still = point(2.5, 2.5, 2);
    expect(picture(still, still, 5, 5)).toBe('..#../.###./#####/.###./..#..');
  });

  test('radius 0 is the single pixel that holds the point', () => {
    for (const [x, y] of [
      [1, 1],
      [1.99, 1.01],
      [1.5, 1.5],
    ] as const) {
      expect(picture(point(x, y, 0), point(x, y, 0), 4, 3)).toBe('..../.#../....');
    }
  });

  test('a thin line has no gap', () => {
    expect(picture(point(0.5, 0.5, 0), point(4.5, 4.5, 0), 5, 5)).toBe('#..../.#.../..#../...#./....#');
    expect(picture(point(0.5, 1.5, 0), point(5.5, 1.5, 0), 6, 3)).toBe('....../######/......');
  });

  test('beyond the photo nothing is covered', () => {
    expect(picture(point(-1, 1, 2), point(-1, 1, 2), 3, 2)).toBe('#../#..');
    expect(covered(point(-50, -50, 3), point(-40, -60, 3), 10, 10).pixels).toBe(0);
  });

  test('a point that is no number, or a negative radius, is refused', () => {
    expect(() => covered(point(Number.NaN, 1, 1), point(1, 1, 1), 5, 5)).toThrow('got NaN, 1, radius 1');
    expect(() => covered(point(1, 1, -1), point(1, 1, 1), 5, 5)).toThrow('radius -1');
  });

  test('is every centre near enough to some place of the brush on its way', () => {
    const eighths = (from: number, to: number) =>
      fc.integer({ min: from * 8, max: to * 8 }).map((n) => n / 8);
    const brush = fc.record({ x: eighths(-4, 34), y: eighths(-4, 34), radiusPx: eighths(0, 9) });
    fc.assert(
      fc.property(brush, brush, (a, b) => {
        const runs = covered(point(a.x, a.y, a.radiusPx), point(b.x, b.y, b.radiusPx), 30, 30);
        for (let y = 0; y < 30; y += 1) {
          for (let x = 0; x < 30; x += 1) {
            const reach = furthestInside(a, b, x + 0.5, y + 0.5);
            const underPoint = [a, b].some((p) => Math.floor(p.x) === x && Math.floor(p.y) === y);
            const expected = underPoint || reach > 0;
            // on the rim to within rounding either answer will do
            if (!underPoint && Math.abs(reach) < 1e-6) continue;
            if (hasPixel(runs, x, y) !== expected) throw new Error(`${x}, ${y}: reach ${reach}`);
          }
        }
      }),
      { seed: 11, numRuns: 40 },
    );
  });
});

/**
 * How deep a place lies inside the brush where it is deepest on its way; negative outside. The depth is a concave
 * function of the way, so a search by thirds finds its largest value.
 */
function furthestInside(
  a: { x: number; y: number; radiusPx: number },
  b: { x: number; y: number; radiusPx: number },
  x: number,
  y: number,
): number {
  const [aRadius, bRadius] = [Math.max(0.5, a.radiusPx), Math.max(0.5, b.radiusPx)];
  const depth = (t: number) =>
    aRadius + t * (bRadius - aRadius) - Math.hypot(a.x + t * (b.x - a.x) - x, a.y + t * (b.y - a.y) - y);
  let [from, to] = [0, 1];
  for (let i = 0; i < 45; i += 1) {
    const third = (to - from) / 3;
    if (depth(from + third) < depth(to - third)) from += third;
    else to -= third;
  }
  return Math.max(depth(0), depth((from + to) / 2), depth(1));
}

describe('a stroke', () => {
  test('fed point by point touches only what is new, and ends as one patch', () => {
    const mask = maskFrom('RRRRRRRR/RRRRRRRR/RRRRRRRR');
    const edit = beginEdit(mask);
    const stroke = beginStroke(edit, { label: 2 });
    expect(stroke.moveTo(point(1.5, 1.5, 1))).toEqual({ left: 0, top: 0, right: 3, bottom: 3 });
    expect(stroke.moveTo(point(1.5, 1.5, 1))).toBeNull();
    expect(stroke.moveTo(point(5.5, 1.5, 1))).toEqual({ left: 2, top: 0, right: 7, bottom: 3 });
    expect(pictureOf(mask.effective)).toBe('RWWWWWRR/WWWWWWWR/RWWWWWRR');
    const patch = finishEdit(edit)!;
    expect([patch.changedPixels, patch.dirtyBox]).toEqual([17, { left: 0, top: 0, right: 7, bottom: 3 }]);
  });

  test('in many small moves is the stroke in one', () => {
    const blank = Array.from({ length: 60 }, () => 'R'.repeat(150)).join('/');
    const [one, many] = [maskFrom(blank), maskFrom(blank)];
    for (const [mask, moves] of [
      [one, 1],
      [many, 64],
    ] as const) {
      const edit = beginEdit(mask);
      const stroke = beginStroke(edit, { label: 3 });
      for (let i = 0; i <= moves; i += 1) {
        // whole eighths on the way, so that rounding has no part in it
        stroke.moveTo(point(11 + (128 * i) / moves, 9 + (32 * i) / moves, 7.3));
      }
      finishEdit(edit);
    }
    expect(pictureOf(many.effective)).toBe(pictureOf(one.effective));
  });

  test('erases with the automatic label', () => {
    const mask = maskFrom('RRRR');
    const edit = beginEdit(mask);
    beginStroke(edit, { label: 3 }).moveTo(point(2, 0.5, 5));
    beginStroke(edit, { label: 0 }).moveTo(point(0.5, 0.5, 0));
    finishEdit(edit);
    expect(pictureOf(mask.effective)).toBe('RBBB');
  });
});

describe('a radius in millimetres', () => {
  test('follows the scale of the photo', () => {
    const square = [photoPoint(0, 0), photoPoint(400, 0), photoPoint(400, 400), photoPoint(0, 400)] as const;
    const area = measuredArea(400, 400, { frame: { corners: square, sizeMm: [500, 500] } });
    // 0.8 px a millimetre
    expect(brushRadiusPx(area, photoPoint(100, 300), 10)).toBeCloseTo(8, 9);
  });

  test('covers the same ground near and far', () => {
    const corners = [photoPoint(30, 0), photoPoint(70, 0), photoPoint(100, 100), photoPoint(0, 100)] as const;
    const area = measuredArea(100, 100, { frame: { corners, sizeMm: [500, 500] } });
    const ground = [plotPoint(0, 0), plotPoint(500, 0), plotPoint(500, 500), plotPoint(0, 500)] as const;
    const map = homographyBetween(corners, ground);
    for (const y of [10, 50, 90]) {
      const radiusPx = brushRadiusPx(area, photoPoint(50, y), 20)!;
      // ground under a small square in the photo, by mapping its corners
      const square = [
        [49.9, y - 0.1],
        [50.1, y - 0.1],
        [50.1, y + 0.1],
        [49.9, y + 0.1],
      ] as const;
      const mm2 = polygonAreaPx(square.map(([u, v]) => mapPoint(map, photoPoint(u, v))));
      expect(radiusPx * Math.sqrt(mm2 / 0.04)).toBeCloseTo(20, 3);
    }
  });

  test('needs a scale', () => {
    expect(brushRadiusPx(measuredArea(10, 10), photoPoint(5, 5), 10)).toBeNull();
  });
});
