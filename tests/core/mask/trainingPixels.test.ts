import { describe, expect, test } from 'vitest';
import { collectRuns } from '../../../src/core/geometry/pixelRuns.ts';
import { type CorrectedMask, correctedMask } from '../../../src/core/mask/correctedMask.ts';
import { correctionAt, emptyCorrections } from '../../../src/core/mask/correctionLayer.ts';
import { beginEdit, finishEdit, paintRuns } from '../../../src/core/mask/maskEdit.ts';
import { trainingPixels } from '../../../src/core/mask/trainingPixels.ts';
import { seededRandom } from '../../support/seededRandom.ts';
import { maskFrom } from './maskPictures.ts';

type Rectangle = readonly [left: number, top: number, right: number, bottom: number, label: number];

function paint(mask: CorrectedMask, ...rectangles: readonly Rectangle[]): CorrectedMask {
  const edit = beginEdit(mask);
  for (const [left, top, right, bottom, label] of rectangles) {
    const runs = collectRuns((visit) => {
      for (let y = top; y < bottom; y += 1) visit(y, left, right);
    });
    paintRuns(edit, runs, { label });
  }
  finishEdit(edit);
  return mask;
}

/** 300 x 200, the upper half class 1 and the lower class 2, the last column not measured. */
function blank(): CorrectedMask {
  const labels = Uint8Array.from({ length: 300 * 200 }, (_, i) =>
    i % 300 === 299 ? 0 : i < 300 * 100 ? 1 : 2,
  );
  return correctedMask({ widthPx: 300, heightPx: 200, labels }, emptyCorrections(300, 200), 3);
}

const pixelOf = ({ at: [x, y] }: { readonly at: readonly [number, number] }) =>
  [Math.floor(x), Math.floor(y)] as const;

describe('pixels to teach with', () => {
  test('are corrected pixels with the label a person gave, each once', () => {
    const mask = paint(blank(), [10, 10, 200, 90, 1], [50, 120, 140, 180, 3]);
    const pixels = trainingPixels(mask, { pixelsPerClass: 200, random: seededRandom(1) });
    expect(pixels.map(({ label }) => label)).toEqual([
      ...Array.from({ length: 200 }, () => 1),
      ...Array.from({ length: 200 }, () => 3),
    ]);
    for (const pixel of pixels) expect(correctionAt(mask.corrections, ...pixelOf(pixel))).toBe(pixel.label);
    expect(new Set(pixels.map((pixel) => pixelOf(pixel).join())).size).toBe(400);
    expect(pixels.every(({ at: [x, y] }) => x % 1 === 0.5 && y % 1 === 0.5)).toBe(true);
  });

  test('are the same for the same seed, others for another', () => {
    const mask = paint(blank(), [10, 10, 200, 90, 2]);
    const draw = (seed: number) => trainingPixels(mask, { pixelsPerClass: 50, random: seededRandom(seed) });
    expect(draw(4)).toEqual(draw(4));
    expect(draw(4)).not.toEqual(draw(5));
  });

  test('come from small areas as well as from a large one', () => {
    // tiles of 64 px: the large area fills 2 x 2 of them, the small one lies in another
    const mask = paint(blank(), [0, 0, 128, 128, 3], [200, 150, 206, 156, 3]);
    const pixels = trainingPixels(mask, { pixelsPerClass: 50, random: seededRandom(2) });
    const inSmall = pixels.filter((pixel) => pixelOf(pixel)[0] >= 200).length;
    expect(inSmall).toBe(10);
  });

  test('keep off the rim of an area', () => {
    const mask = paint(blank(), [60, 60, 70, 70, 3], [140, 20, 141, 40, 3]);
    const pixels = trainingPixels(mask, { pixelsPerClass: 1000, random: seededRandom(3) });
    // 10 x 10 less its rim; the line of single pixels is all rim
    expect(pixels).toHaveLength(64);
    expect(pixels.every((pixel) => pixelOf(pixel).every((value) => value > 60 && value < 69))).toBe(true);
  });

  test('take the rim of a class that has nothing else', () => {
    const mask = paint(blank(), [140, 20, 141, 40, 3]);
    expect(trainingPixels(mask, { pixelsPerClass: 1000, random: seededRandom(3) })).toHaveLength(20);
  });

  test("an area at the photo's edge has no rim there", () => {
    const mask = paint(maskFrom('RRR/RRR/RRR'), [0, 0, 3, 3, 2]);
    expect(trainingPixels(mask, { pixelsPerClass: 99, random: seededRandom(1) })).toHaveLength(9);
  });

  test('nothing corrected, or corrected where nothing is measured now: none', () => {
    expect(trainingPixels(blank(), { pixelsPerClass: 10, random: seededRandom(1) })).toEqual([]);
    const mask = paint(maskFrom('RRR'), [0, 0, 2, 1, 2]);
    const moved = correctedMask(maskFrom('..R').automatic, mask.corrections, 3);
    expect(trainingPixels(moved, { pixelsPerClass: 10, random: seededRandom(1) })).toEqual([]);
  });

  test('a number that is none is refused', () => {
    expect(() => trainingPixels(blank(), { pixelsPerClass: 1.5, random: seededRandom(1) })).toThrow(
      'got 1.5',
    );
  });
});
