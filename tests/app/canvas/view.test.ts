import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  fitView,
  isFitted,
  panBy,
  photoToScreen,
  pinch,
  screenToPhoto,
  settleView,
  type View,
  zoomAt,
} from '../../../src/app/canvas/view.ts';
import { photoPoint, screenPoint } from '../../../src/core/geometry/points.ts';

const photo = { width: 1000, height: 750 };
const surface = { width: 500, height: 500 };

const views = fc
  .record({ scale: fc.double({ min: 0.05, max: 20, noNaN: true }), x: fc.integer(), y: fc.integer() })
  .map(({ scale, x, y }): View => ({ scale, origin: screenPoint(x % 5000, y % 5000) }));
const screenPoints = fc
  .tuple(fc.integer({ min: 0, max: 500 }), fc.integer({ min: 0, max: 500 }))
  .map(([x, y]) => screenPoint(x, y));

describe('fitView', () => {
  test('shows the whole photo in the middle', () => {
    const view = fitView(photo, surface);
    expect(view).toEqual({ scale: 0.5, origin: [0, 62.5] });
    expect(photoToScreen(view, photoPoint(1000, 750))).toEqual([500, 437.5]);
    expect(isFitted(view, photo, surface)).toBe(true);
  });
});

test('a point taken to the photo and back is where it was', () => {
  fc.assert(
    fc.property(views, screenPoints, (view, point) => {
      const [x, y] = photoToScreen(view, screenToPhoto(view, point));
      expect(x).toBeCloseTo(point[0], 6);
      expect(y).toBeCloseTo(point[1], 6);
    }),
  );
});

test('zooming leaves the photo under the pointer where it is', () => {
  fc.assert(
    fc.property(views, screenPoints, fc.double({ min: 0.2, max: 5, noNaN: true }), (view, anchor, factor) => {
      const [x, y] = screenToPhoto(view, anchor);
      const [u, v] = screenToPhoto(zoomAt(view, anchor, factor), anchor);
      expect(u).toBeCloseTo(x, 5);
      expect(v).toBeCloseTo(y, 5);
    }),
  );
});

test('two fingers keep hold of the points they were put on', () => {
  const view = fitView(photo, surface);
  const from = [screenPoint(100, 200), screenPoint(200, 200)] as const;
  const to = [screenPoint(50, 260), screenPoint(350, 260)] as const;
  const after = pinch(view, from, to);
  expect(after.scale).toBeCloseTo(1.5);
  for (const i of [0, 1] as const) {
    const [x, y] = photoToScreen(after, screenToPhoto(view, from[i]));
    expect(x).toBeCloseTo(to[i][0]);
    expect(y).toBeCloseTo(to[i][1]);
  }
});

test('two fingers on one spot move the photo and do not zoom it', () => {
  const spot = screenPoint(10, 10);
  expect(pinch(fitView(photo, surface), [spot, spot], [screenPoint(12, 10), screenPoint(30, 10)]).scale).toBe(
    0.5,
  );
});

describe('settleView', () => {
  test('brings any view back to one without an empty margin', () => {
    fc.assert(
      fc.property(views, (view) => {
        const { scale, origin } = settleView(view, photo, surface);
        expect(scale).toBeGreaterThanOrEqual(0.5);
        expect(scale).toBeLessThanOrEqual(24);
        for (const [at, length, room] of [
          [origin[0], photo.width * scale, surface.width],
          [origin[1], photo.height * scale, surface.height],
        ] as const) {
          if (length <= room) expect(at).toBeCloseTo((room - length) / 2, 6);
          else {
            expect(at).toBeLessThanOrEqual(0);
            expect(at + length).toBeGreaterThanOrEqual(room - 1e-6);
          }
        }
      }),
    );
  });

  test('leaves a good view alone', () => {
    const good = panBy(zoomAt(fitView(photo, surface), screenPoint(250, 250), 4), 30, -20);
    expect(settleView(good, photo, surface)).toEqual(good);
  });

  test('a photo smaller than the surface may fill it', () => {
    expect(
      settleView(fitView({ width: 10, height: 10 }, surface), { width: 10, height: 10 }, surface).scale,
    ).toBe(50);
  });
});
