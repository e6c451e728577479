import { describe, expect, test } from 'vitest';
import { type MaskStyle, paintMask } from '../../../src/app/canvas/paintMask.ts';
import type { View } from '../../../src/app/canvas/view.ts';
import { screenPoint } from '../../../src/core/geometry/points.ts';
import type { LabelMask } from '../../../src/core/raster/labelMask.ts';
import type { CoverClass } from '../../../src/core/trial/coverClass.ts';

const classOf = (id: string, colour: string): CoverClass => ({
  id,
  name: id,
  reportingGroup: id,
  startRole: null,
  key: id[0]!.toUpperCase(),
  colour,
});
const classes = [classOf('red', '#ff0000'), classOf('green', '#00ff00')];
const style: MaskStyle = { classes, shown: new Set(['red', 'green']), patterns: false, outlines: false };

/** "rg/.." with . for not measured. */
function maskFrom(picture: string): LabelMask {
  const rows = picture.split('/');
  return {
    widthPx: rows[0]!.length,
    heightPx: rows.length,
    labels: Uint8Array.from([...rows.join('')].map((letter) => '.rg'.indexOf(letter))),
  };
}

/** The painted surface as letters: r, g, . for clear, # for an outline, * for anything else. */
function painted(
  mask: LabelMask,
  view: View,
  width: number,
  height: number,
  changed: Partial<MaskStyle> = {},
) {
  const out = new Uint32Array(width * height).fill(0xdeadbeef);
  paintMask(mask, view, { ...style, ...changed }, out, width);
  const bytes = new Uint8Array(out.buffer);
  return Array.from({ length: height }, (_, y) =>
    Array.from({ length: width }, (_, x) => {
      const [red, green, blue, alpha] = bytes.subarray((y * width + x) * 4);
      if (alpha === 0) return '.';
      if (red === 255 && green === 0) return 'r';
      if (green === 255 && red === 0) return 'g';
      return red! < 20 && green! < 20 && blue! < 20 ? '#' : '*';
    }).join(''),
  ).join('/');
}

const at = (scale: number, x: number, y: number): View => ({ scale, origin: screenPoint(x, y) });

describe('paintMask', () => {
  test('one to one', () => {
    expect(painted(maskFrom('rg/.r'), at(1, 0, 0), 2, 2)).toBe('rg/.r');
  });

  test('enlarged and moved, with a clear margin', () => {
    expect(painted(maskFrom('rg/.r'), at(2, 1, -1), 6, 4)).toBe('.rrgg./...rr./...rr./......');
  });

  test('made smaller it takes the label under the middle of each surface pixel', () => {
    expect(painted(maskFrom('rrgg/rrgg'), at(0.5, 0, 0), 2, 1)).toBe('rg');
  });

  test('a hidden class is clear, the others stay', () => {
    expect(painted(maskFrom('rg/.r'), at(1, 0, 0), 2, 2, { shown: new Set(['green']) })).toBe('.g/..');
  });

  test('outlines stand at the change from one class to the next', () => {
    expect(painted(maskFrom('rg/rg'), at(3, 0, 0), 6, 6, { outlines: true })).toBe(
      'rrr#gg/rrr#gg/rrr#gg/rrr#gg/rrr#gg/rrr#gg',
    );
  });

  test('outlines alone are light beside dark', () => {
    expect(painted(maskFrom('rg/rg'), at(3, 0, 0), 6, 6, { outlines: true, fills: false })).toBe(
      Array(6).fill('..*#..').join('/'),
    );
  });

  test('only what is unlike another mask', () => {
    const before = maskFrom('rr/gg').labels;
    expect(painted(maskFrom('rg/rg'), at(1, 0, 0), 2, 2, { unlike: before })).toBe('.g/r.');
  });

  test('patterns differ from class to class and travel with the photo', () => {
    const one = painted(maskFrom('r'), at(16, 0, 0), 16, 16, { patterns: true });
    const other = painted(maskFrom('g'), at(16, 0, 0), 16, 16, { patterns: true });
    expect(one).toMatch(/\*/);
    expect(one.replaceAll('r', '')).not.toBe(other.replaceAll('g', ''));
    const moved = painted(maskFrom('r'), at(16, 1, 0), 17, 16, { patterns: true });
    expect(moved.split('/').map((row) => row.slice(1))).toEqual(one.split('/'));
  });
});
