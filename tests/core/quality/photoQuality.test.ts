import { describe, expect, test } from 'vitest';
import type { CameraFacts } from '../../../src/core/photo-file/readCameraFacts.ts';
import { photoQuality } from '../../../src/core/quality/photoQuality.ts';
import type { RgbaRaster } from '../../../src/core/raster/rgbaRaster.ts';
import { resampled, scaledColours, shadowAcross, tilt } from '../../support/framePictures.ts';
import { seededRandom } from '../../support/seededRandom.ts';
import { syntheticTurf } from '../../support/syntheticTurf.ts';
import { corners } from '../frame/framedTurf.ts';

/** Leaf-like texture, one colour: 400 x 400 pixels of a frame 340 mm wide, so 1 mm a pixel. */
const turf = syntheticTurf(400, 400, () => [90, 110, 60], { texture: 0.5 });
const frame = corners([30, 30], [370, 30], [370, 370], [30, 370]);
const sizeMm = [340, 340] as const;

const codesOf = (photo: RgbaRaster, of = frame, size: readonly [number, number] = sizeMm) =>
  photoQuality(photo, { frame: { corners: of, sizeMm: size } }).findings.map(({ code }) => code);

test('a sharp, evenly lit photo from straight above is good', () => {
  const { verdict, findings, measures } = photoQuality(turf, { frame: { corners: frame, sizeMm } });
  expect(findings.filter(({ code }) => code !== 'noisy')).toEqual([]);
  expect(verdict).not.toBe('retake');
  expect(measures.millimetresPerPixel).toBeCloseTo(1, 10);
  expect(measures.tiltDegrees).toBeCloseTo(0, 6);
});

describe('each fault is found where it is, by steps', () => {
  test('blur', () => {
    const measured = [0, 1, 2, 4].map((radius) => {
      const { measures } = photoQuality(boxBlurred(turf, radius), { frame: { corners: frame, sizeMm } });
      return measures.detail!.detailPx;
    });
    for (const [k, value] of measured.slice(1).entries()) expect(value).toBeGreaterThan(measured[k]!);
    expect(codesOf(boxBlurred(turf, 2))).toContain('blurred');
  });

  test('light: too dark, too light, clipped', () => {
    expect(codesOf(scaledColours(turf, 0.5))).toContain('too-dark');
    expect(codesOf(scaledColours(turf, 0.05))).toEqual(
      expect.arrayContaining(['too-dark', 'shadows-clipped']),
    );
    expect(codesOf(scaledColours(turf, 1.9))).toEqual(
      expect.arrayContaining(['too-light', 'lights-clipped']),
    );
  });

  test('a hard shadow across, with how dark it is and how much it covers', () => {
    const { findings } = photoQuality(shadowAcross(turf, frame, 0.35, seededRandom(2)), {
      frame: { corners: frame, sizeMm },
    });
    const shadow = findings.find(({ code }) => code === 'shadow-across');
    expect(shadow).toMatchObject({ severity: 'retake' });
    if (shadow?.code === 'shadow-across') {
      // 1 / 0.35 = 2.9 for red and green, a little less with the bluer light of the shadow
      expect(shadow.lightRatio).toBeGreaterThan(2.3);
      expect(shadow.lightRatio).toBeLessThan(3.1);
      expect(shadow.darkFraction).toBeCloseTo(0.5, 1);
    }
    expect(codesOf(turf)).not.toContain('shadow-across');
  });

  test('few pixels on a leaf', () => {
    const half = resampled(turf, 200, 200, (x, y) => [2 * x, 2 * y]);
    const halfFrame = corners([15, 15], [185, 15], [185, 185], [15, 185]);
    expect(codesOf(half, halfFrame)).toContain('few-pixels');
    expect(codesOf(half, halfFrame, [150, 150])).not.toContain('few-pixels');
  });

  test.each([5, 10, 15, 20])('tilt of %i degrees', (degrees) => {
    const tilted = tilt(turf, frame, degrees, 0.7, 4);
    const { measures, findings } = photoQuality(tilted.raster, {
      frame: { corners: tilted.corners, sizeMm },
    });
    // the picture was warped as a camera of 26 mm on a 36 mm wide film sees it; the measure takes the diagonal
    const focal35 = (26 / 36) * 400 * (Math.sqrt(24 ** 2 + 36 ** 2) / Math.hypot(400, 400));
    const exact = photoQuality(tilted.raster, {
      frame: { corners: tilted.corners, sizeMm },
      camera: { ...PLAIN_CAMERA, focalLength35Mm: focal35 },
    });
    expect(exact.measures.tiltDegrees).toBeCloseTo(degrees, 3);
    // without the focal length the usual one is taken: a square photo's diagonal makes it a fifth longer than it was
    expect(Math.abs(measures.tiltDegrees! - degrees)).toBeLessThan(0.25 * degrees);
    expect(findings.some(({ code }) => code === 'tilted')).toBe(degrees > 8);
  });
});

const PLAIN_CAMERA: CameraFacts = {
  hasExif: true,
  device: null,
  utcOffsetMinutes: null,
  focalLength35Mm: null,
  digitalZoomRatio: null,
  writtenWidthPx: null,
  writtenHeightPx: null,
};

test('what the file and the camera tell', () => {
  const codes = (camera: Partial<CameraFacts>, compressionQuality: number | null = null) =>
    photoQuality(turf, { camera: { ...PLAIN_CAMERA, ...camera }, compressionQuality }).findings.map(
      ({ code, severity }) => `${code}: ${severity}`,
    );
  const plain = codes({});
  const added = (...args: Parameters<typeof codes>) => codes(...args).filter((code) => !plain.includes(code));
  expect(added({ hasExif: false })).toEqual(['camera-facts-lost: caution']);
  expect(added({ focalLength35Mm: 14 })).toEqual(['very-wide-lens: caution']);
  expect(added({ focalLength35Mm: 26, digitalZoomRatio: 1 })).toEqual([]);
  expect(added({ digitalZoomRatio: 2 })).toEqual(['digital-zoom: caution']);
  expect(added({ writtenWidthPx: 4000, writtenHeightPx: 4000 })).toEqual(['resized: caution']);
  expect(added({ writtenWidthPx: 400, writtenHeightPx: 401 })).toEqual([]);
  expect(added({}, 60)).toEqual(['strongly-compressed: caution']);
  expect(added({}, 30)).toEqual(['strongly-compressed: retake']);
  expect(added({}, 90)).toEqual([]);
});

test('the neutral reference: missing, unusable, or nobody looked', () => {
  const of = (greyCard: Parameters<typeof photoQuality>[1]) =>
    photoQuality(turf, greyCard).findings.filter(({ severity }) => severity === 'note');
  expect(of({ greyCard: { found: false } })).toEqual([{ code: 'no-neutral-reference', severity: 'note' }]);
  expect(of({})).toEqual([]);
  const card = { found: true, rectangle: [1, 1, 9, 9], outline: frame, colour: [254, 254, 254] } as const;
  expect(of({ greyCard: { ...card, warnings: ['grey-card-too-light'] } })).toMatchObject([
    { code: 'neutral-reference-unusable', warning: 'grey-card-too-light' },
  ]);
});

test('a photo smaller than a tile, and one without a frame, get a verdict on what can be seen', () => {
  const tiny = { widthPx: 2, heightPx: 2, data: new Uint8ClampedArray(16).fill(100) };
  expect(photoQuality(tiny).measures).toMatchObject({
    detail: null,
    tiltDegrees: null,
    millimetresPerPixel: null,
  });
  expect(photoQuality(turf).measures).toMatchObject({ tiltDegrees: null, millimetresPerPixel: null });
});

/** Mean over squares of 2 * radius + 1 pixels; edges repeat. */
function boxBlurred(photo: RgbaRaster, radius: number): RgbaRaster {
  const { widthPx, heightPx, data } = photo;
  const clamped = (value: number, size: number) => Math.min(size - 1, Math.max(0, value));
  const result = new Uint8ClampedArray(data.length).fill(255);
  for (let y = 0; y < heightPx; y += 1) {
    for (let x = 0; x < widthPx; x += 1) {
      for (let c = 0; c < 3; c += 1) {
        let sum = 0;
        for (let v = -radius; v <= radius; v += 1) {
          const row = clamped(y + v, heightPx) * widthPx;
          for (let u = -radius; u <= radius; u += 1) sum += data[4 * (row + clamped(x + u, widthPx)) + c]!;
        }
        result[4 * (y * widthPx + x) + c] = sum / (2 * radius + 1) ** 2;
      }
    }
  }
  return { ...photo, data: result };
}
