import fc from 'fast-check';
import { expect, test } from 'vitest';
import { collectRuns, hasPixel } from '../../../src/core/geometry/pixelRuns.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { forEachPolygonRun } from '../../../src/core/geometry/polygonRuns.ts';

type Corner = readonly [number, number];

const runsOf = (corners: readonly Corner[], widthPx: number, heightPx: number) =>
  collectRuns((visit) =>
    forEachPolygonRun(
      corners.map(([x, y]) => photoPoint(x, y)),
      widthPx,
      heightPx,
      visit,
    ),
  );

const picture = (corners: readonly Corner[], widthPx: number, heightPx: number) => {
  const runs = runsOf(corners, widthPx, heightPx);
  return Array.from({ length: heightPx }, (_, y) =>
    Array.from({ length: widthPx }, (_, x) => (hasPixel(runs, x, y) ? '#' : '.')).join(''),
  ).join('/');
};

test('pixels whose centre lies inside, clipped to the photo', () => {
  expect(
    picture(
      [
        [1, 1],
        [4, 1],
        [4, 3],
        [1, 3],
      ],
      5,
      4,
    ),
  ).toBe('...../.###./.###./.....');
  expect(
    picture(
      [
        [-5, -5],
        [2.5, -5],
        [2.5, 20],
        [-5, 20],
      ],
      4,
      2,
    ),
  ).toBe('##../##..');
});

test('a line that crosses itself leaves a hole where it runs round twice', () => {
  const twice: Corner[] = [
    [0, 0],
    [6, 0],
    [6, 6],
    [0, 6],
    [0, 0],
    [2, 2],
    [4, 2],
    [4, 4],
    [2, 4],
    [2, 2],
  ];
  expect(picture(twice, 6, 6)).toBe('######/######/##..##/##..##/######/######');
});

test('two polygons along one line share no pixel and leave none out', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 80 }), fc.integer({ min: 0, max: 80 }), (top, bottom) => {
      const left = runsOf(
        [
          [0, 0],
          [top / 8, 0],
          [bottom / 8, 10],
          [0, 10],
        ],
        10,
        10,
      );
      const right = runsOf(
        [
          [top / 8, 0],
          [10, 0],
          [10, 10],
          [bottom / 8, 10],
        ],
        10,
        10,
      );
      expect(left.pixels + right.pixels).toBe(100);
    }),
    { seed: 5, numRuns: 200 },
  );
});

test('the same pixels as asking for each centre in turn', () => {
  const corner = fc.tuple(fc.integer({ min: -40, max: 200 }), fc.integer({ min: -40, max: 200 }));
  fc.assert(
    fc.property(fc.array(corner, { minLength: 3, maxLength: 9 }), (eighths) => {
      // a seventh of a pixel aside, so that no corner or edge of a random polygon meets a centre
      const corners = eighths.map(([x, y]): Corner => [x / 8 + 1 / 7, y / 8 + 1 / 11]);
      const runs = runsOf(corners, 20, 20);
      for (let y = 0; y < 20; y += 1) {
        for (let x = 0; x < 20; x += 1) {
          if (hasPixel(runs, x, y) !== isInside(corners, x + 0.5, y + 0.5)) throw new Error(`${x}, ${y}`);
        }
      }
    }),
    { seed: 7, numRuns: 100 },
  );
});

/** Even-odd rule by a ray straight down, where the code under test looks along rows. */
function isInside(corners: readonly Corner[], x: number, y: number): boolean {
  let crossings = 0;
  corners.forEach(([ax, ay], i) => {
    const [bx, by] = corners[(i + 1) % corners.length]!;
    if (ax > x === bx > x) return;
    if (ay + ((x - ax) / (bx - ax)) * (by - ay) > y) crossings += 1;
  });
  return crossings % 2 === 1;
}

test('runs come with their number of pixels and the smallest box round them', () => {
  const { pixels, box } = runsOf(
    [
      [2, 1],
      [4, 1],
      [4, 2],
      [7, 2],
      [7, 4],
      [2, 4],
    ],
    9,
    9,
  );
  expect([pixels, box]).toEqual([12, { left: 2, top: 1, right: 7, bottom: 4 }]);
});

test('nothing to fill gives no runs', () => {
  expect(runsOf([], 5, 5)).toEqual({
    runs: new Int32Array(),
    pixels: 0,
    box: { left: 0, top: 0, right: 0, bottom: 0 },
  });
  expect(
    runsOf(
      [
        [0, 0],
        [5, 5],
      ],
      5,
      5,
    ).pixels,
  ).toBe(0);
  expect(
    runsOf(
      [
        [0, 50],
        [5, 50],
        [5, 60],
      ],
      5,
      5,
    ).pixels,
  ).toBe(0);
});

test('a corner that is no number is refused', () => {
  expect(() =>
    runsOf(
      [
        [0, 0],
        [Number.NaN, 1],
        [2, 2],
      ],
      5,
      5,
    ),
  ).toThrow('got NaN, 1');
});
