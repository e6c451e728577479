import type { LabelMask } from '../../src/core/raster/labelMask.ts';

/**
 * A mask drawn as text: rows divided by "/", "." for not measured, letters for labels in the order of `letters`.
 *
 * @example labelMaskFrom('RRB/RW.')
 */
export function labelMaskFrom(picture: string, letters = 'RWB'): LabelMask {
  const rows = picture.split('/');
  const widthPx = rows[0]!.length;
  const labels = new Uint8Array(widthPx * rows.length);
  rows.forEach((row, y) => {
    if (row.length !== widthPx)
      throw new RangeError(`row ${y} has ${row.length} pixels, the first has ${widthPx}`);
    [...row].forEach((letter, x) => {
      const label = letter === '.' ? 0 : letters.indexOf(letter) + 1;
      if (letter !== '.' && label === 0) throw new RangeError(`no class has the letter ${letter}`);
      labels[y * widthPx + x] = label;
    });
  });
  return { widthPx, heightPx: rows.length, labels };
}
