import { plainScorePair, scorePairBy } from '../../src/core/classifier/scorePair.ts';
import { classCountsBy, plainClassCounts } from '../../src/core/cover/classCounts.ts';
import { analysisGrid } from '../../src/core/features/analysisGrid.ts';
import { chainedBoxMeansBy, plainChainedBoxMeans } from '../../src/core/features/chainedBoxMeans.ts';
import { emptyPlanes, fillRows, type LabPlanes, labWork } from '../../src/core/features/labRows.ts';
import { fillRowsBy } from '../../src/core/features/labRowsBy.ts';
import { localSpreadBy, plainLocalSpread } from '../../src/core/features/localSpread.ts';
import { boxCountsBy, plainBoxCounts } from '../../src/core/features/maskedBoxMeans.ts';
import { measuredArea } from '../../src/core/geometry/measuredArea.ts';
import { photoPoint } from '../../src/core/geometry/points.ts';
import { loadKernels } from '../../src/core/kernels/kernels.ts';
import type { RgbaRaster } from '../../src/core/raster/rgbaRaster.ts';
import { firstDifference } from './firstDifference.ts';
import { seededRandom } from './seededRandom.ts';

export interface KernelComparison {
  /** Comparisons made. */
  readonly compared: number;
  /** What came out otherwise by kernels than in plain code. */
  readonly differences: readonly string[];
  /** Sum over all bytes compared, so that two engines can be held against each other. */
  readonly checksum: number;
}

/**
 * Every kernel against its plain version on one picture, in a crooked frame with a hole, and on cells of several sizes.
 *
 * @throws Error where the engine has no kernels: nothing would be compared
 */
export function kernelDifferences(raster: RgbaRaster, seed: number): KernelComparison {
  const kernels = loadKernels();
  if (!kernels) throw new Error('no kernels here: nothing can be compared');
  const { widthPx, heightPx } = raster;
  const differences: string[] = [];
  let compared = 0;
  let checksum = 0;
  const compare = (what: string, plain: ArrayBufferView, ours: ArrayBufferView) => {
    const [expected, got] = [plain, ours].map((v) => new Uint8Array(v.buffer, v.byteOffset, v.byteLength));
    const difference = firstDifference(expected!, got!);
    compared += 1;
    if (difference) differences.push(`${what}: ${difference}`);
    for (let i = 0; i < got!.length; i += 1) checksum = (Math.imul(checksum, 31) + got![i]!) | 0;
  };
  const at = (x: number, y: number) => photoPoint(x * widthPx, y * heightPx);
  const area = measuredArea(widthPx, heightPx, {
    frame: { corners: [at(0.03, 0.06), at(0.97, 0.02), at(0.9, 0.95), at(0.1, 0.88)], sizeMm: [100, 80] },
    ignored: [[at(0.3, 0.3), at(0.5, 0.32), at(0.35, 0.6)]],
  });
  for (const factor of [1, 2, 3, 8]) {
    const grid = analysisGrid(area, factor);
    const work = labWork(raster, area, grid, factor === 3 ? [1.9, 1.1, 7.5] : null);
    const plain = emptyPlanes(grid);
    fillRows(plain, work, 0, grid.heightCells);
    for (const rowsAtOnce of [1, 7, grid.heightCells]) {
      const ours = emptyPlanes(grid);
      for (let row = 0; row < grid.heightCells; row += rowsAtOnce) {
        fillRowsBy(kernels, ours, work, row, Math.min(row + rowsAtOnce, grid.heightCells));
      }
      for (const plane of [
        'lightness',
        'aStar',
        'bStar',
        'logLightness',
        'measured',
        'groundWeight',
      ] as const) {
        compare(`${plane}, cells of ${factor} pixels, ${rowsAtOnce} rows at once`, plain[plane], ours[plane]);
      }
    }
    compareNeighbourhoods(plain, `cells of ${factor} pixels`, compare);
    compareScores(plain, seed, `cells of ${factor} pixels`, compare);
  }
  const labels = area.inside.map((isMeasured, pixel) => isMeasured * (1 + (raster.data[4 * pixel]! % 3)));
  const mask = { widthPx, heightPx, labels };
  for (const measured of [area, measuredArea(widthPx, heightPx)]) {
    const plain = plainClassCounts(mask, measured, 3);
    const ours = classCountsBy(kernels, mask, measured, 3)!;
    compare('pixels by label', plain.pixels, ours.pixels);
    compare('ground by label', plain.ground, ours.ground);
  }
  return { compared, differences, checksum };
}

type Compare = (what: string, plain: ArrayBufferView, ours: ArrayBufferView) => void;

function compareNeighbourhoods(
  { grid, measured, lightness, aStar }: LabPlanes,
  where: string,
  compare: Compare,
) {
  const kernels = loadKernels()!;
  const { widthCells, heightCells } = grid;
  const region = { widthCells, heightCells, measured };
  const steps = [1, 1, 4, 16, 127].map((radius) => ({ radius, counts: plainBoxCounts(region, radius) }));
  for (const { radius, counts } of steps) {
    compare(`counts, radius ${radius}, ${where}`, counts, boxCountsBy(kernels, region, radius));
    compare(
      `spread, radius ${radius}, ${where}`,
      plainLocalSpread(lightness, counts, widthCells, heightCells, radius),
      localSpreadBy(kernels, lightness, counts, widthCells, heightCells, radius),
    );
  }
  const ours = chainedBoxMeansBy(kernels, aStar, region, steps);
  plainChainedBoxMeans(aStar, region, steps).forEach((plane, i) => {
    compare(`means, step ${i}, ${where}`, plane, ours[i]!);
  });
}

function compareScores(
  { lightness, aStar, bStar, measured }: LabPlanes,
  seed: number,
  where: string,
  compare: Compare,
) {
  const planes = [lightness, aStar, bStar];
  const random = seededRandom(seed);
  const some = (size: number, scale: number) =>
    Float64Array.from({ length: size }, () => (random() - 0.5) * scale);
  const polynomial = () => ({
    constant: (random() - 0.5) * 1e6,
    linear: some(3, 300),
    square: some(6, 0.05),
  });
  const pair = [polynomial(), polynomial()] as const;
  const scores = Array.from({ length: 4 }, () => new Int32Array(measured.length)) as [
    Int32Array,
    Int32Array,
    Int32Array,
    Int32Array,
  ];
  plainScorePair({ planes, measured }, pair, scores[0], scores[1]);
  scorePairBy(loadKernels()!, { planes, measured }, pair, scores[2], scores[3]);
  compare(`first score, ${where}`, scores[0], scores[2]);
  compare(`second score, ${where}`, scores[1], scores[3]);
}

/** Bytes at random: every colour, and no likeness between neighbours. */
export function randomPicture(widthPx: number, heightPx: number, seed: number): RgbaRaster {
  const random = seededRandom(seed);
  const data = Uint8ClampedArray.from({ length: 4 * widthPx * heightPx }, () => Math.floor(random() * 256));
  return { widthPx, heightPx, data };
}
