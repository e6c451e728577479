import { expect, test } from 'vitest';
import { findGreyCard } from '../../../src/core/frame/findGreyCard.ts';
import type { RgbaRaster } from '../../../src/core/raster/rgbaRaster.ts';
import { corners, distanceOutward, framedTurf } from './framedTurf.ts';

const frame = corners([130, 80], [470, 80], [470, 390], [130, 390]);
const card = corners([240, 195], [295, 180], [308, 236], [252, 249]);

/** A card of one colour laid on turf. */
function withCard(colour: readonly [number, number, number], place = card): RgbaRaster {
  const photo = framedTurf([frame], [235, 225, 150]);
  const distance = distanceOutward(place);
  for (let y = 0; y < photo.heightPx; y += 1) {
    for (let x = 0; x < photo.widthPx; x += 1) {
      if (distance(x + 0.5, y + 0.5) <= 0) photo.data.set(colour, 4 * (y * photo.widthPx + x));
    }
  }
  return photo;
}

test('a turned card: the rectangle lies on it and has its colour', () => {
  const finding = findGreyCard(withCard([150, 152, 149]), frame);
  expect(finding).toMatchObject({ found: true, colour: [150, 152, 149], warnings: [] });
  if (!finding.found) return;
  const [x, y, w, h] = finding.rectangle;
  const distance = distanceOutward(card);
  for (const [px, py] of [
    [x, y],
    [x + w, y],
    [x + w, y + h],
    [x, y + h],
  ] as const) {
    expect(distance(px, py)).toBeLessThanOrEqual(0);
  }
  expect(w * h).toBeGreaterThan(500);
});

test('a bluish card, as under a cool white balance', () => {
  expect(findGreyCard(withCard([155, 175, 195]), frame).found).toBe(true);
});

test('cards that colours cannot be balanced by are found and reported', () => {
  expect(findGreyCard(withCard([253, 254, 252]), frame)).toMatchObject({ warnings: ['grey-card-too-light'] });
  expect(findGreyCard(withCard([18, 18, 18]), frame)).toMatchObject({ warnings: ['grey-card-too-dark'] });
});

test('no card: turf alone, a coloured sheet, a strip, a card outside the frame', () => {
  const strip = corners([150, 200], [450, 200], [450, 216], [150, 216]);
  const outside = corners([490, 195], [560, 195], [560, 260], [490, 260]);
  expect(findGreyCard(framedTurf([frame], [235, 225, 150]), frame)).toEqual({ found: false });
  expect(findGreyCard(withCard([190, 60, 50]), frame)).toEqual({ found: false });
  expect(findGreyCard(withCard([150, 152, 149], strip), frame)).toEqual({ found: false });
  expect(findGreyCard(withCard([150, 152, 149], outside), frame)).toEqual({ found: false });
});
