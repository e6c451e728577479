import { describe, expect, it } from 'vitest';
import { labFromXyz, xyzFromLinear } from '../../../src/core/colour/cielab.ts';
import { linearFromSrgb } from '../../../src/core/colour/srgb.ts';
import { analysisGrid, analysisGridFor } from '../../../src/core/features/analysisGrid.ts';
import { blockSums } from '../../../src/core/features/blockSums.ts';
import { labPlanes } from '../../../src/core/features/labPlanes.ts';
import { LAB_UNIT } from '../../../src/core/features/logLightness.ts';
import { fillGroundWeights, measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { seededRandom } from '../../support/seededRandom.ts';

const WIDTH = 61;
const HEIGHT = 47;
const random = seededRandom(3);
const raster = {
  widthPx: WIDTH,
  heightPx: HEIGHT,
  data: Uint8ClampedArray.from({ length: 4 * WIDTH * HEIGHT }, (_, at) =>
    at % 4 === 3 ? 255 : Math.floor(random() * 256),
  ),
};
const area = measuredArea(WIDTH, HEIGHT, {
  frame: {
    corners: [photoPoint(3, 2), photoPoint(58, 4), photoPoint(55, 45), photoPoint(5, 43)],
    sizeMm: [50, 40],
  },
  ignored: [[photoPoint(10, 10), photoPoint(20, 10), photoPoint(10, 20)]],
});

/** CIELAB of the mean linear light of the measured pixels of one cell, straight from the definitions. */
function direct(factor: number, column: number, row: number, gains: readonly [number, number, number]) {
  const sums = [0, 0, 0];
  let count = 0;
  for (let y = row * factor; y < Math.min(HEIGHT, (row + 1) * factor); y += 1) {
    for (let x = column * factor; x < Math.min(WIDTH, (column + 1) * factor); x += 1) {
      const pixel = y * WIDTH + x;
      if (area.inside[pixel] === 0) continue;
      count += 1;
      for (let channel = 0; channel < 3; channel += 1) {
        sums[channel]! += linearFromSrgb(raster.data[4 * pixel + channel]! / 255) * gains[channel]!;
      }
    }
  }
  return { count, lab: labFromXyz(xyzFromLinear([sums[0]! / count, sums[1]! / count, sums[2]! / count])) };
}

describe.each([
  [1, [1, 1, 1]],
  [2, [1.1, 1, 0.9]],
  [3, [1, 1, 1]],
  [5, [0.8, 1, 1.25]],
] as const)('cells of %i x %i pixels', (factor, gains) => {
  it('hold CIELAB of the mean light of their measured pixels', async () => {
    const grid = analysisGrid(area, factor);
    const planes = await labPlanes(raster, area, grid, { neutralGains: gains });
    let filled = 0;
    for (let row = 0; row < grid.heightCells; row += 1) {
      for (let column = 0; column < grid.widthCells; column += 1) {
        const cell = row * grid.widthCells + column;
        const { count, lab } = direct(
          factor,
          column + grid.leftPx / factor,
          row + grid.topPx / factor,
          gains,
        );
        expect(planes.measured[cell]).toBe(count);
        if (count === 0) continue;
        filled += 1;
        // table steps of 1 / 16384 of the light: up to 0.03 of L*, and 500 / 116 of that in a*
        expect(Math.abs(planes.lightness[cell]! / LAB_UNIT - lab[0])).toBeLessThan(0.05);
        expect(Math.abs(planes.aStar[cell]! / LAB_UNIT - lab[1])).toBeLessThan(0.3);
        expect(Math.abs(planes.bStar[cell]! / LAB_UNIT - lab[2])).toBeLessThan(0.2);
      }
    }
    expect(filled).toBeGreaterThan(20);
  });

  it('stand for all of the ground', async () => {
    const grid = analysisGrid(area, factor);
    const { groundWeight } = await labPlanes(raster, area, grid);
    const weights = new Int32Array(WIDTH);
    let byPixel = 0;
    for (let y = area.bounds.top; y < area.bounds.bottom; y += 1) {
      fillGroundWeights(area, y, weights);
      for (let x = area.bounds.left; x < area.bounds.right; x += 1) {
        if (area.inside[y * WIDTH + x] === 1) byPixel += weights[x]!;
      }
    }
    const byCell = groundWeight.reduce((sum, weight) => sum + weight, 0);
    expect(Math.abs(byCell / byPixel - 1)).toBeLessThan(0.02);
  });

  it('do not depend on the strips', async () => {
    const grid = analysisGrid(area, factor);
    const whole = await labPlanes(raster, area, grid);
    expect(await labPlanes(raster, area, grid, { stripRows: 1 })).toEqual(whole);
  });
});

it('chooses cells of at most 0.9 mm, or from the number of pixels where there is no scale', () => {
  const square = (side: number, millimetres: number | null) =>
    analysisGridFor(
      measuredArea(side, side, {
        frame: {
          corners: [photoPoint(0, 0), photoPoint(side, 0), photoPoint(side, side), photoPoint(0, side)],
          sizeMm: millimetres === null ? null : [millimetres, millimetres],
        },
      }),
    ).factor;
  expect(square(600, 500)).toBe(1);
  expect(square(2500, 1000)).toBe(2);
  expect(square(3000, 500)).toBe(5);
  expect(square(1000, null)).toBe(1);
  expect(square(3000, null)).toBe(3);
  // a plot of 2.1 m on 9 megapixels: 0.7 mm a pixel would be 9 million cells
  expect(square(3000, 2100)).toBe(2);
});

it('sums blocks over the cells that count', async () => {
  const planes = await labPlanes(raster, area, analysisGrid(area, 1));
  const only = planes.measured.map((count, cell) => (count > 0 && cell % 3 > 0 ? 1 : 0));
  const sums = blockSums(planes, only, 4);
  const total = (plane: ArrayLike<number>) => Array.from(plane).reduce((sum, value) => sum + value, 0);
  const chosen = (plane: ArrayLike<number>) => Array.from(plane).filter((_, cell) => only[cell] === 1);
  expect(total(sums.cells)).toBe(total(only));
  expect(total(sums.measured)).toBe(area.measuredPixels);
  expect(total(sums.aStar)).toBe(total(chosen(planes.aStar)));
  expect(total(sums.groundWeight)).toBe(total(chosen(planes.groundWeight)));
  // the first block by hand
  const { widthCells } = planes.grid;
  let first = 0;
  for (let y = 0; y < 4; y += 1) for (let x = 0; x < 4; x += 1) first += only[y * widthCells + x]!;
  expect(sums.cells[0]).toBe(first);
});
