import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import photos from '../../../sample-images/photos.json' with { type: 'json' };
import { findFrame } from '../../../src/core/frame/findFrame.ts';
import type { Quadrilateral } from '../../../src/core/geometry/points.ts';
import { isSureFrame } from '../../../src/core/quality/checkPhoto.ts';
import type { RgbaRaster } from '../../../src/core/raster/rgbaRaster.ts';
import { framePictures } from '../../support/framePictures.ts';
import { corners, framedTurf } from './framedTurf.ts';

const YELLOW = [235, 225, 150] as const;
const upright = corners([130, 80], [470, 80], [470, 390], [130, 390]);
const slanted = corners([141, 75], [462, 98], [480, 396], [112, 381]);

const largestError = (found: Quadrilateral<'photo'>, truth: Quadrilateral<'photo'>): number =>
  Math.max(...found.map(([x, y], i) => Math.hypot(x - truth[i]![0], y - truth[i]![1])));

describe('a frame on made-up turf is found to a pixel and a half', () => {
  test.each([
    ['white', [240, 240, 240]],
    ['grey', [165, 167, 168]],
    ['yellow', YELLOW],
    ['red', [190, 50, 45]],
    ['blue', [60, 90, 190]],
    ['black', [25, 25, 25]],
  ] as const)('%s pipe', (_, pipe) => {
    for (const frame of pipe === YELLOW ? [upright, slanted] : [slanted]) {
      const finding = findFrame(framedTurf([frame], pipe));
      expect(finding).toMatchObject({ found: true, warnings: [] });
      if (finding.found) {
        expect(largestError(finding.corners, frame)).toBeLessThan(1.5);
        expect(finding.confidence).toBeGreaterThan(0.7);
      }
    }
  });
});

test('turf without a frame has none', () => {
  expect(findFrame(framedTurf([], YELLOW))).toEqual({ found: false, reason: 'no-frame' });
});

test('a frame that reaches out of the photo is said to be cut off, with the place of its corners', () => {
  const cutOff = corners([-20, 80], [330, 80], [330, 390], [-20, 390]);
  const alsoTop = corners([130, -15], [470, -15], [470, 390], [130, 390]);
  for (const frame of [cutOff, alsoTop]) expect(findFrame(framedTurf([frame], YELLOW)).found).toBe(false);
  const corner = corners([-6, 60], [330, 30], [350, 390], [40, 400]);
  const finding = findFrame(framedTurf([corner], YELLOW));
  expect(finding).toMatchObject({ found: false, reason: 'frame-cut-off' });
  if (!finding.found && finding.reason === 'frame-cut-off') {
    expect(largestError(finding.corners, corner)).toBeLessThan(3);
  }
});

test('two frames: one is found, the other is told of', () => {
  const left = corners([40, 110], [270, 110], [270, 340], [40, 340]);
  const right = corners([330, 110], [560, 110], [560, 340], [330, 340]);
  const finding = findFrame(framedTurf([left, right], YELLOW));
  expect(finding.found).toBe(true);
  if (!finding.found) return;
  const second = finding.warnings.find(({ code }) => code === 'second-frame');
  expect(second).toBeDefined();
  expect(Math.min(largestError(finding.corners, left), largestError(finding.corners, right))).toBeLessThan(
    1.5,
  );
});

test('a photo of one colour, and one smaller than a pipe, have no frame', () => {
  for (const [widthPx, heightPx] of [
    [300, 200],
    [3, 2],
    [40, 1],
  ] as const) {
    const data = new Uint8ClampedArray(4 * widthPx * heightPx).fill(120);
    expect(findFrame({ widthPx, heightPx, data })).toEqual({ found: false, reason: 'no-frame' });
  }
});

test('the same photo gives the same corners, bit for bit', () => {
  const photo = framedTurf([slanted], YELLOW);
  expect(findFrame(photo)).toEqual(findFrame(photo));
});

// truth: photos.json, corners of the scene the renderer was given; all 64 are looked at by the bench
const even = photos.photos.filter(({ plot }) => Number(plot) % 2 === 0);

test('sample photos, one of each date: corners within 3 px at 1000 px', async () => {
  const errors: number[] = [];
  for (const { photo, frame } of even.filter((_, k) => k % 8 === 1)) {
    const finding = findFrame(await decoded(photo));
    expect(finding, photo).toMatchObject({ found: true });
    if (finding.found) errors.push(largestError(finding.corners, frame as unknown as Quadrilateral<'photo'>));
  }
  expect(errors).toHaveLength(4);
  expect(Math.max(...errors)).toBeLessThan(3);
});

const sample = even.find(({ photo }) => photo.endsWith('2027-04-12_102.jpg'))!;
const madeUpFrame = sample.frame.map(([x, y]) => [0.6 * x!, 0.6 * y!]) as unknown as Quadrilateral<'photo'>;
const pictures = framePictures(await decoded(sample.photo, 600), madeUpFrame, 1);

describe('pictures made from a sample photo, at 600 px: right, or warned of, and nothing wrong is sure', () => {
  test.each(pictures)('$kind', ({ raster, corners: truth, needsWarning }) => {
    const finding = findFrame(raster);
    const warned = !finding.found || finding.warnings.length > 0;
    const right = !needsWarning && finding.found && truth && largestError(finding.corners, truth) <= 3;
    expect(warned || right).toBe(true);
    if (isSureFrame(finding)) expect(right).toBe(true);
  });
});

async function decoded(photo: string, widthPx = 1000): Promise<RgbaRaster> {
  const { data, info } = await sharp(`sample-images/${photo}`)
    .resize({ width: widthPx })
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { widthPx: info.width, heightPx: info.height, data: new Uint8ClampedArray(data) };
}
