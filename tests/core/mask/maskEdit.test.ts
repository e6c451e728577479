import { describe, expect, test } from 'vitest';
import { collectRuns } from '../../../src/core/geometry/pixelRuns.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { forEachPolygonRun } from '../../../src/core/geometry/polygonRuns.ts';
import { applyPatch } from '../../../src/core/mask/applyPatch.ts';
import { correctedMask } from '../../../src/core/mask/correctedMask.ts';
import { emptyCorrections } from '../../../src/core/mask/correctionLayer.ts';
import { invertPatch } from '../../../src/core/mask/correctionPatch.ts';
import { abandonEdit, beginEdit, finishEdit, paintRuns } from '../../../src/core/mask/maskEdit.ts';
import { labelMaskFrom } from '../../support/labelMaskFrom.ts';
import { correctionsOf, maskFrom, pictureOf } from './maskPictures.ts';

const rows = (...runs: readonly (readonly [number, number, number])[]) =>
  collectRuns((visit) => {
    for (const [y, from, to] of runs) visit(y, from, to);
  });

describe('an edit', () => {
  test('writes the class over what is measured, and nothing where it is not', () => {
    const mask = maskFrom('RR./RWB');
    const edit = beginEdit(mask);
    expect(paintRuns(edit, rows([0, 0, 3], [1, 1, 3]), { label: 3 })).toEqual({
      left: 0,
      top: 0,
      right: 3,
      bottom: 2,
    });
    finishEdit(edit);
    expect(pictureOf(mask.effective)).toBe('BB./RBB');
    expect(pictureOf(mask.automatic)).toBe('RR./RWB');
    // a class painted over itself is a statement as well: it holds when the model is taught anew
    expect(correctionsOf(mask.corrections)).toBe('BB./.BB');
  });

  test('touches only one class where that is asked for', () => {
    const mask = maskFrom('RWRW');
    const edit = beginEdit(mask);
    paintRuns(edit, rows([0, 0, 4]), { label: 3, onlyOver: 2 });
    expect(pictureOf(mask.effective)).toBe('RBRB');
    // what counts now decides, not what was computed
    paintRuns(edit, rows([0, 0, 2]), { label: 1, onlyOver: 2 });
    expect(pictureOf(mask.effective)).toBe('RBRB');
    finishEdit(edit);
  });

  test('takes corrections back to the automatic label', () => {
    const mask = maskFrom('RWRW');
    const edit = beginEdit(mask);
    paintRuns(edit, rows([0, 0, 4]), { label: 3 });
    paintRuns(edit, rows([0, 1, 3]), { label: 0 });
    finishEdit(edit);
    expect([pictureOf(mask.effective), correctionsOf(mask.corrections)]).toEqual(['BWRB', 'B..B']);
  });

  test('changes a class inside an outline only', () => {
    const mask = maskFrom('WWWW/WRWW/WWWW');
    const outline = [photoPoint(1, 1), photoPoint(4, 1), photoPoint(4, 3), photoPoint(1, 3)];
    const edit = beginEdit(mask);
    paintRuns(
      edit,
      collectRuns((visit) => forEachPolygonRun(outline, 4, 3, visit)),
      {
        label: 3,
        onlyOver: 2,
      },
    );
    finishEdit(edit);
    expect(pictureOf(mask.effective)).toBe('WWWW/WRBB/WBBB');
  });

  test('that changes nothing in the end leaves no patch and no tile', () => {
    const mask = maskFrom('RW');
    const edit = beginEdit(mask);
    paintRuns(edit, rows([0, 0, 2]), { label: 3 });
    paintRuns(edit, rows([0, 0, 2]), { label: 0 });
    expect(finishEdit(edit)).toBeNull();
    expect(mask.corrections.tiles.size).toBe(0);
  });

  test('can be abandoned', () => {
    const mask = maskFrom('RW./WWR');
    finishWith(mask, rows([0, 0, 1]), 2);
    const edit = beginEdit(mask);
    paintRuns(edit, rows([0, 0, 3], [1, 0, 3]), { label: 3 });
    abandonEdit(edit);
    expect([pictureOf(mask.effective), correctionsOf(mask.corrections)]).toEqual(['WW./WWR', 'W../...']);
    expect(mask.editing).toBe(false);
  });

  test('is alone: a second one, or an undo, waits until it ends', () => {
    const mask = maskFrom('RW');
    const patch = finishWith(mask, rows([0, 0, 1]), 2)!;
    const edit = beginEdit(mask);
    expect(() => beginEdit(mask)).toThrow('an edit of this mask is open');
    expect(() => applyPatch(mask, invertPatch(patch))).toThrow('an edit of this mask is open');
    finishEdit(edit);
    applyPatch(mask, invertPatch(patch));
    expect(pictureOf(mask.effective)).toBe('RW');
  });

  test('refuses a label that is no class', () => {
    const edit = beginEdit(maskFrom('RW'));
    expect(() => paintRuns(edit, rows([0, 0, 1]), { label: 4 })).toThrow('from 0 to 3, got 4');
    expect(() => paintRuns(edit, rows([0, 0, 1]), { label: 1, onlyOver: 1.5 })).toThrow('got 1.5');
  });
});

describe('corrections', () => {
  test('keep their place when the frame moves, and have no effect outside it', () => {
    const mask = maskFrom('RRRR./RRRR./.....');
    finishWith(mask, rows([0, 1, 3], [1, 0, 2]), 3);
    const before = correctionsOf(mask.corrections);

    const moved = correctedMask(labelMaskFrom('...../..RRR/..RRR'), mask.corrections, 3);
    expect(pictureOf(moved.effective)).toBe('...../..RRR/..RRR');
    expect(correctionsOf(moved.corrections)).toBe(before);

    const back = correctedMask(labelMaskFrom('.WWWW/.WWWW/.....'), mask.corrections, 3);
    expect(pictureOf(back.effective)).toBe('.BBWW/.BWWW/.....');
  });

  test('cost nothing where nobody corrected', () => {
    const large = emptyCorrections(4000, 3000);
    expect(large.tiles.size).toBe(0);
  });

  test('of another size or with an unknown class are refused', () => {
    expect(() => correctedMask(labelMaskFrom('RW'), emptyCorrections(3, 1), 3)).toThrow('3 x 1');
    const mask = maskFrom('RW');
    finishWith(mask, rows([0, 1, 2]), 3);
    expect(() => correctedMask(labelMaskFrom('RW'), mask.corrections, 2)).toThrow('correction 3 at 1,0');
    expect(() => emptyCorrections(0, 5)).toThrow('1 to 65535 px, got 0');
  });
});

function finishWith(mask: ReturnType<typeof maskFrom>, runs: ReturnType<typeof rows>, label: number) {
  const edit = beginEdit(mask);
  paintRuns(edit, runs, { label });
  return finishEdit(edit);
}
