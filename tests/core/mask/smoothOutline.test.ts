import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { collectRuns } from '../../../src/core/geometry/pixelRuns.ts';
import type { CorrectedMask } from '../../../src/core/mask/correctedMask.ts';
import { beginEdit, finishEdit } from '../../../src/core/mask/maskEdit.ts';
import { smoothOutline } from '../../../src/core/mask/smoothOutline.ts';
import { correctionsOf, maskFrom, pictureOf } from './maskPictures.ts';

const everything = ({ automatic }: CorrectedMask) =>
  collectRuns((visit) => {
    for (let y = 0; y < automatic.heightPx; y += 1) visit(y, 0, automatic.widthPx);
  });

function smoothed(picture: string, radiusPx: number): string {
  const mask = maskFrom(picture);
  const edit = beginEdit(mask);
  smoothOutline(edit, everything(mask), radiusPx);
  finishEdit(edit);
  return pictureOf(mask.effective);
}

describe('smoothing', () => {
  test('gives a speck to what is round it', () => {
    expect(smoothed('RRRRR/RRRRR/RRWRR/RRRRR/RRRRR', 1)).toBe('RRRRR/RRRRR/RRRRR/RRRRR/RRRRR');
  });

  test('leaves a straight outline where it is', () => {
    const picture = 'RRRWWW/RRRWWW/RRRWWW/RRRWWW';
    expect(smoothed(picture, 1.5)).toBe(picture);
  });

  test('keeps a pixel whose class is as frequent as another', () => {
    expect(smoothed('RW', 1)).toBe('RW');
    expect(smoothed('RWB', 0.9)).toBe('RWB');
  });

  test('counts what is measured only, and leaves the rest alone', () => {
    expect(smoothed('..R../.WRW./..R..', 1)).toBe('..R../.WRW./..R..');
    // top left: one of each, so it stays; bottom left: two against itself
    expect(smoothed('W../.RR/WR.', 1.5)).toBe('W../.RR/RR.');
  });

  test('writes corrections only where the class changes', () => {
    const mask = maskFrom('RRR/RWR/RRR');
    const edit = beginEdit(mask);
    expect(smoothOutline(edit, everything(mask), 1)).toEqual({ left: 1, top: 1, right: 2, bottom: 2 });
    finishEdit(edit);
    expect(correctionsOf(mask.corrections)).toBe('.../.R./...');
  });

  test('refuses a radius out of range', () => {
    const mask = maskFrom('R');
    const edit = beginEdit(mask);
    expect(() => smoothOutline(edit, everything(mask), 128)).toThrow('0 to 127 px, got 128');
    expect(() => smoothOutline(edit, everything(mask), Number.NaN)).toThrow('got NaN');
  });

  test('is the same as counting the disc round each pixel afresh', () => {
    const labels = fc.array(fc.constantFrom('.', 'R', 'R', 'W', 'B'), {
      minLength: 20 * 12,
      maxLength: 20 * 12,
    });
    fc.assert(
      fc.property(labels, fc.integer({ min: 0, max: 40 }), (letters, eighths) => {
        const rows = Array.from({ length: 12 }, (_, y) => letters.slice(20 * y, 20 * y + 20));
        const picture = rows.map((row) => row.join('')).join('/');
        expect(smoothed(picture, eighths / 8)).toBe(
          rows.map((row, y) => row.map((_, x) => majority(rows, x, y, eighths / 8)).join('')).join('/'),
        );
      }),
      { seed: 13, numRuns: 60 },
    );
  });
});

function majority(rows: readonly (readonly string[])[], x: number, y: number, radius: number): string {
  const own = rows[y]![x]!;
  if (own === '.') return own;
  const count = (letter: string) =>
    rows.reduce(
      (sum, row, v) =>
        sum + row.filter((other, u) => other === letter && (u - x) ** 2 + (v - y) ** 2 <= radius ** 2).length,
      0,
    );
  const most = Math.max(...['R', 'W', 'B'].map(count));
  return count(own) === most ? own : ['R', 'W', 'B'].find((letter) => count(letter) === most)!;
}
