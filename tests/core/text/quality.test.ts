import { expect, test } from 'vitest';
import {
  frameMissingText,
  frameWarningText,
  mixedDevicesText,
  qualityFindingText,
  qualityVerdictText,
} from '../../../src/core/text/quality.ts';

test('findings give the value met and what to do', () => {
  expect(qualityFindingText({ code: 'blurred', severity: 'caution', detailMm: 1.64 })).toContain(
    '1.6 mm wide',
  );
  expect(
    qualityFindingText({
      code: 'few-pixels',
      severity: 'caution',
      millimetresPerPixel: 1.7,
      pixelsPerBlade: 1.47,
    }),
  ).toMatch(/1\.7 mm of ground.* 1\.5 pixels wide\. Go closer/);
  expect(
    qualityFindingText({ code: 'shadow-across', severity: 'retake', lightRatio: 2.43, darkFraction: 0.4 }),
  ).toMatch(/across 40 % .* 2\.4 times its light\. Step aside/);
  expect(qualityFindingText({ code: 'lights-clipped', severity: 'caution', fraction: 0.034 })).toContain(
    '3.4 %',
  );
  expect(
    qualityFindingText({
      code: 'resized',
      severity: 'caution',
      writtenWidthPx: 4000,
      writtenHeightPx: 3000,
      widthPx: 1600,
      heightPx: 1200,
    }),
  ).toContain('4,000 × 3,000 pixels, this file has 1,600 × 1,200');
});

test('frames: what to check, and what to do without one', () => {
  expect(frameWarningText({ code: 'frame-side-hidden', side: 3, seenFraction: 0.55 })).toContain(
    "55 % of the frame's left side",
  );
  expect(frameMissingText('frame-cut-off')).toContain('all four corners');
  expect(frameMissingText('no-frame')).toContain('by hand');
});

test('cameras of one date are counted', () => {
  const devices = [
    { device: 'Example A', photos: 14 },
    { device: 'Example B', photos: 1 },
  ];
  expect(mixedDevicesText({ code: 'mixed-devices', devices })).toContain(
    '2 cameras: Example A (14 photos), Example B (1 photo).',
  );
});

test('every verdict has a word of its own', () => {
  expect(new Set(Object.values(qualityVerdictText)).size).toBe(3);
});
