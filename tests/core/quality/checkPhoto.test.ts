import { expect, test } from 'vitest';
import type { FrameFinding } from '../../../src/core/frame/findFrame.ts';
import { frameOf } from '../../../src/core/geometry/frameOf.ts';
import { measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import {
  checkPhoto,
  type FindRequest,
  isSureFrame,
  type SettledArea,
} from '../../../src/core/quality/checkPhoto.ts';
import type { RgbaRaster } from '../../../src/core/raster/rgbaRaster.ts';
import { corners, distanceOutward, framedTurf } from '../frame/framedTurf.ts';

const frame = corners([130, 80], [470, 80], [470, 390], [130, 390]);
const card = corners([240, 195], [295, 180], [308, 236], [252, 249]);
const NOTHING: SettledArea = { frame: null, ignored: [], neutral: null };
const FIND: FindRequest = { frame: true, greyCard: true, frameSizeMm: [500, 500] };
const NO_FILE = new Uint8Array();

function turf(frames = [frame], withCard = true): RgbaRaster {
  const photo = framedTurf(frames, [235, 225, 150]);
  const distance = distanceOutward(card);
  for (let i = 0; withCard && i < photo.widthPx * photo.heightPx; i += 1) {
    const [x, y] = [i % photo.widthPx, Math.floor(i / photo.widthPx)];
    if (distance(x + 0.5, y + 0.5) <= 0) photo.data.set([150, 155, 160], 4 * i);
  }
  return photo;
}

test('frame and card are found and become what is measured: the whole card is left out', () => {
  const { check, settings } = checkPhoto(turf(), NO_FILE, NOTHING, FIND);
  expect(check.frame).toMatchObject({ found: true, warnings: [] });
  expect(check.greyCard).toMatchObject({ found: true });
  expect(settings.frame?.sizeMm).toEqual([500, 500]);
  expect(check.quality.measures.millimetresPerPixel).toBeCloseTo(500 / Math.sqrt(340 * 310), 1);
  expect(check.balance?.after).toEqual([155, 155, 155]);
  const area = measuredArea(600, 450, settings);
  const onCard = measuredArea(600, 450, { ignored: [card] });
  expect(area.inside.some((value, i) => value === 1 && onCard.inside[i] === 0)).toBe(false);
});

test('what is settled is never overruled, and not looked for', () => {
  const settled: SettledArea = {
    frame: { corners: frame, sizeMm: null },
    ignored: [],
    neutral: [1, 1, 4, 4],
  };
  const { check, settings } = checkPhoto(turf(), NO_FILE, settled, FIND);
  expect(settings).toBe(settled);
  expect(check).toMatchObject({ frame: null, greyCard: null });
  // the person chose the whole photo and no card
  const whole = checkPhoto(turf(), NO_FILE, NOTHING, { ...FIND, frame: false, greyCard: false });
  expect(whole.settings).toBe(NOTHING);
  expect(whole.check).toMatchObject({ frame: null, greyCard: null, balance: null });
});

test('a doubtful frame is told of and not used: no card is looked for in it', () => {
  const left = corners([40, 110], [270, 110], [270, 340], [40, 340]);
  const right = corners([330, 110], [560, 110], [560, 340], [330, 340]);
  const { check, settings } = checkPhoto(turf([left, right], false), NO_FILE, NOTHING, FIND);
  expect(check.frame).toMatchObject({ found: true });
  expect(settings).toBe(NOTHING);
  expect(check.greyCard).toBeNull();
});

test('sure means no warning and every side seen', () => {
  const sure: FrameFinding = { found: true, corners: frame, confidence: 0.9, warnings: [] };
  expect(isSureFrame(sure)).toBe(true);
  expect(isSureFrame({ ...sure, confidence: 0.7 })).toBe(false);
  expect(isSureFrame({ ...sure, warnings: [{ code: 'frame-ambiguous' }] })).toBe(false);
  expect(isSureFrame({ found: false, reason: 'no-frame' })).toBe(false);
});

test('a frame that is not square takes its longer side where the photo shows it', () => {
  const lying = corners([0, 0], [200, 0], [200, 100], [0, 100]);
  const standing = corners([0, 0], [100, 0], [100, 200], [0, 200]);
  expect(frameOf(lying, [250, 500]).sizeMm).toEqual([500, 250]);
  expect(frameOf(standing, [250, 500]).sizeMm).toEqual([250, 500]);
  expect(frameOf(standing, null).sizeMm).toBeNull();
});
