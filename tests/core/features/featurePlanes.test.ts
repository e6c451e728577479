import { describe, expect, it } from 'vitest';
import { extractFeatures, FEATURE_UNIT, FEATURES } from '../../../src/core/features/featurePlanes.ts';
import { levelGains } from '../../../src/core/features/levelGains.ts';
import { localSpread } from '../../../src/core/features/localSpread.ts';
import { boxCounts } from '../../../src/core/features/maskedBoxMeans.ts';
import { measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import type { RgbaRaster } from '../../../src/core/raster/rgbaRaster.ts';
import { paintedTurf } from '../../support/paintedTurf.ts';
import { seededRandom } from '../../support/seededRandom.ts';

describe('localSpread', () => {
  it('is the standard deviation of the cells of the square that count, to an eighth of a unit step', () => {
    const random = seededRandom(3);
    const [width, height] = [17, 11];
    const measured = Uint8Array.from({ length: width * height }, () => (random() < 0.7 ? 1 : 0));
    const plane = Int16Array.from(measured, (counts) => (counts ? Math.floor(random() * 12_800) : 0));
    for (const radius of [1, 4]) {
      const counts = boxCounts({ widthCells: width, heightCells: height, measured }, radius);
      const spread = localSpread(plane, counts, width, height, radius);
      for (let y = 0; y < height; y += 1) {
        for (let x = 0; x < width; x += 1) {
          const near: number[] = [];
          for (let v = Math.max(0, y - radius); v <= Math.min(height - 1, y + radius); v += 1) {
            for (let u = Math.max(0, x - radius); u <= Math.min(width - 1, x + radius); u += 1) {
              if (measured[v * width + u] === 1) near.push(plane[v * width + u]!);
            }
          }
          const mean = near.reduce((sum, value) => sum + value, 0) / Math.max(1, near.length);
          const variance =
            near.reduce((sum, value) => sum + (value - mean) ** 2, 0) / Math.max(1, near.length);
          // values are cut to eighths before squaring: up to 4 steps off
          expect(Math.abs(spread[y * width + x]! - Math.sqrt(variance))).toBeLessThan(5);
        }
      }
    }
  });
});

describe('levelGains', () => {
  const grey = (value: number, widthPx = 20, heightPx = 10): RgbaRaster => ({
    widthPx,
    heightPx,
    data: new Uint8ClampedArray(widthPx * heightPx * 4).fill(value),
  });

  it('brings luminance to that of middling turf and colours half way', () => {
    // by hand: sRGB 128 is 0.2159 in linear light (IEC 61966-2-1); turf has luminance
    // (54 * 0.055 + 183 * 0.085 + 19 * 0.035) / 256 = 0.07496, red 0.055: sqrt(0.07496 * 0.055) / 0.2159 = 0.2974
    const gains = levelGains(grey(128), measuredArea(20, 10));
    expect(gains[0]).toBeCloseTo(0.2974, 3);
    expect(gains[1]).toBeCloseTo(Math.sqrt(0.07496 * 0.085) / 0.2159, 3);
    expect(gains[2]).toBeCloseTo(Math.sqrt(0.07496 * 0.035) / 0.2159, 3);
  });

  it('stays within a factor of eight, and leaves nothing measured alone', () => {
    expect(levelGains(grey(2), measuredArea(20, 10)).every((gain) => gain === 8)).toBe(true);
    const nothing = measuredArea(20, 10, {
      ignored: [[photoPoint(0, 0), photoPoint(20, 0), photoPoint(20, 10), photoPoint(0, 10)]],
    });
    expect(levelGains(grey(2), nothing)).toEqual([1, 1, 1]);
  });
});

describe('extractFeatures', () => {
  it('hardly changes with the exposure of the photo', async () => {
    const day = paintedTurf(80, 60, [0.5, 0.3, 0.2], { seed: 4 });
    // half the linear light: LINEAR_FROM_BYTE and back by the sRGB curve
    const dusk = day.raster.data.map((value, i) => {
      if (i % 4 === 3) return value;
      const linear =
        (value / 255 <= 0.04045 ? value / 255 / 12.92 : ((value / 255 + 0.055) / 1.055) ** 2.4) / 2;
      return 255 * (linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055);
    });
    const area = measuredArea(80, 60);
    const bright = await extractFeatures(day.raster, area);
    const dark = await extractFeatures({ ...day.raster, data: dusk }, area);
    expect(dark.lightGain / bright.lightGain).toBeCloseTo(2, 1);
    bright.planes.forEach((plane, f) => {
      plane.forEach((value, cell) => {
        expect(Math.abs(value - dark.planes[f]![cell]!)).toBeLessThan(1.5 * FEATURE_UNIT);
      });
    });
  });

  it('does not see what lies outside the measured area', async () => {
    const turf = paintedTurf(60, 40, [0.5, 0.3, 0.2], { seed: 5 });
    const area = measuredArea(60, 40, {
      ignored: [[photoPoint(0, 0), photoPoint(20, 0), photoPoint(20, 40), photoPoint(0, 40)]],
    });
    const white = turf.raster.data.slice();
    for (let y = 0; y < 40; y += 1) white.fill(255, y * 240, y * 240 + 80);
    const plain = await extractFeatures(turf.raster, area);
    const framed = await extractFeatures({ ...turf.raster, data: white }, area);
    expect(framed.planes).toEqual(plain.planes);
    expect(plain.planes).toHaveLength(FEATURES.length);
  });

  it('gives the same bytes in strips of any height', async () => {
    const turf = paintedTurf(70, 90, [0.5, 0.3, 0.2], { seed: 6 });
    const area = measuredArea(70, 90);
    const whole = await extractFeatures(turf.raster, area, { stripRows: 1000 });
    for (const stripRows of [1, 33, 64]) {
      expect((await extractFeatures(turf.raster, area, { stripRows })).planes).toEqual(whole.planes);
    }
  });
});
