import { expect, test } from 'vitest';
import { coarserPlanes } from '../../../src/core/features/coarserPlanes.ts';
import { extractFeatures } from '../../../src/core/features/featurePlanes.ts';
import { measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import { paintedTurf } from '../../support/paintedTurf.ts';

test('every third cell of every third row, with the place and scale of its grid', async () => {
  const { raster } = paintedTurf(100, 70, [0.5, 0.3, 0.2]);
  const features = await extractFeatures(raster, measuredArea(100, 70)); // a cell a pixel
  const coarse = coarserPlanes(features, 1000); // sqrt(7000 / 1000) = 2.6...
  expect(coarse.grid).toMatchObject({ factor: 3, widthCells: 34, heightCells: 24, leftPx: 0, topPx: 0 });
  // the middle of each 3 x 3 cells: row 1, column 1, then column 4
  expect(coarse.planes[0]![0]).toBe(features.planes[0]![101]);
  expect(coarse.planes[3]![1]).toBe(features.planes[3]![104]);
  // what is left of the last column is its last cell
  expect(coarse.planes[0]![33]).toBe(features.planes[0]![199]);
  expect(coarse.measured).toHaveLength(34 * 24);
  expect(coarserPlanes(features, 7000)).toBe(features);
});
