import { expect, test } from 'vitest';
import { labFromXyz, xyzFromLinear } from '../../src/core/colour/cielab.ts';
import { linearFromSrgb } from '../../src/core/colour/srgb.ts';
import { analysisGrid } from '../../src/core/features/analysisGrid.ts';
import { labPlanes } from '../../src/core/features/labPlanes.ts';
import { LAB_UNIT } from '../../src/core/features/logLightness.ts';
import { boxCounts, maskedBoxMeans } from '../../src/core/features/maskedBoxMeans.ts';
import { otsuThreshold } from '../../src/core/features/otsuThreshold.ts';
import { homographyBetween } from '../../src/core/geometry/homography.ts';
import { measuredArea } from '../../src/core/geometry/measuredArea.ts';
import { photoPoint, plotPoint } from '../../src/core/geometry/points.ts';
import { loadOpenCv } from '../../src/vision/loadOpenCv.ts';
import { matOf, withMats } from '../../src/vision/mats.ts';
import { seededRandom } from '../support/seededRandom.ts';

/** Own kernels against opencv.js, an implementation by other people. */
const cv = await loadOpenCv();
const random = seededRandom(20270412);
const widthPx = 97;
const heightPx = 61;
const noise = {
  widthPx,
  heightPx,
  data: new Uint8ClampedArray(widthPx * heightPx * 4).map((_, i) =>
    i % 4 === 3 ? 255 : Math.floor(random() * 256),
  ),
};

test('CIELAB by tables: within 0.25 of the formulas (dark blues), within 0.5 of OpenCV, which interpolates too', async () => {
  const area = measuredArea(widthPx, heightPx);
  const planes = await labPlanes(noise, area, analysisGrid(area, 1));
  const expected = withMats(cv, (keep) => {
    const rgb = keep(new cv.Mat());
    cv.cvtColor(keep(matOf(cv, noise)), rgb, cv.COLOR_RGBA2RGB);
    const unit = keep(new cv.Mat());
    rgb.convertTo(unit, cv.CV_32F, 1 / 255);
    const lab = keep(new cv.Mat());
    cv.cvtColor(unit, lab, cv.COLOR_RGB2Lab);
    return Float32Array.from(lab.data32F);
  });
  let largest = 0;
  let fromFormula = 0;
  for (let pixel = 0; pixel < widthPx * heightPx; pixel += 1) {
    const own = [planes.lightness[pixel]!, planes.aStar[pixel]!, planes.bStar[pixel]!];
    const at = 4 * pixel;
    const [red, green, blue] = [0, 1, 2].map((i) => linearFromSrgb(noise.data[at + i]! / 255));
    const exact = labFromXyz(xyzFromLinear([red!, green!, blue!]));
    own.forEach((value, i) => {
      fromFormula = Math.max(fromFormula, Math.abs(value / LAB_UNIT - exact[i]!));
      largest = Math.max(largest, Math.abs(value / LAB_UNIT - expected[3 * pixel + i]!));
    });
  }
  console.log(
    `CIELAB: largest difference from OpenCV ${largest.toFixed(4)}, from the formulas ${fromFormula.toFixed(4)}`,
  );
  expect(fromFormula).toBeLessThan(0.25);
  expect(largest).toBeLessThan(0.5);
});

test.each([1, 3, 8])('box means of radius %i equal OpenCV to half a unit away from the edge', (radius) => {
  const plane = Int16Array.from({ length: widthPx * heightPx }, () => Math.floor(random() * 20000) - 10000);
  const measured = new Uint8Array(plane.length).fill(1);
  const counts = boxCounts({ widthCells: widthPx, heightCells: heightPx, measured }, radius);
  const own = maskedBoxMeans(plane, counts, widthPx, heightPx, radius);
  const expected = withMats(cv, (keep) => {
    const source = keep(new cv.Mat(heightPx, widthPx, cv.CV_32F));
    source.data32F.set(plane);
    const blurred = keep(new cv.Mat());
    cv.blur(source, blurred, new cv.Size(2 * radius + 1, 2 * radius + 1));
    return Float32Array.from(blurred.data32F);
  });
  for (let y = radius; y < heightPx - radius; y += 1) {
    for (let x = radius; x < widthPx - radius; x += 1) {
      const at = y * widthPx + x;
      expect(Math.abs(own[at]! - expected[at]!)).toBeLessThanOrEqual(0.51);
    }
  }
});

test('Otsu threshold equals OpenCV', () => {
  for (let round = 0; round < 20; round += 1) {
    const centre = 40 + random() * 60;
    const values = Uint8Array.from({ length: 4000 }, (_, i) =>
      Math.max(0, Math.min(255, (i % 3 === 0 ? centre : 190) + (random() + random() + random() - 1.5) * 40)),
    );
    const counts = new Float64Array(256);
    for (const value of values) counts[value]! += 1;
    // OpenCV answers the last level of the lower group
    const expected = withMats(cv, (keep) => {
      const source = keep(cv.matFromArray(1, values.length, cv.CV_8U, [...values]));
      return cv.threshold(source, keep(new cv.Mat()), 0, 255, cv.THRESH_OTSU);
    });
    expect(otsuThreshold(counts)! - 1).toBe(expected);
  }
});

test('the homography of four corners equals OpenCV', () => {
  const from = [
    photoPoint(210, 180),
    photoPoint(1790, 175),
    photoPoint(1800, 1395),
    photoPoint(200, 1400),
  ] as const;
  const to = [plotPoint(0, 0), plotPoint(1000, 0), plotPoint(1000, 1000), plotPoint(0, 1000)] as const;
  const expected = withMats(cv, (keep) => {
    const a = keep(cv.matFromArray(4, 1, cv.CV_32FC2, from.flat()));
    const b = keep(cv.matFromArray(4, 1, cv.CV_32FC2, to.flat()));
    return [...keep(cv.getPerspectiveTransform(a, b)).data64F];
  });
  homographyBetween(from, to).forEach((value, i) => {
    expect(value).toBeCloseTo(expected[i]!, 9);
  });
});
