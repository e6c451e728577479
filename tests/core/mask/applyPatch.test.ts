import { describe, expect, test } from 'vitest';
import { collectRuns } from '../../../src/core/geometry/pixelRuns.ts';
import { applyPatch, applyPatchToLayer } from '../../../src/core/mask/applyPatch.ts';
import { type CorrectedMask, correctedMask } from '../../../src/core/mask/correctedMask.ts';
import { encodeCorrections } from '../../../src/core/mask/correctionBytes.ts';
import { emptyCorrections } from '../../../src/core/mask/correctionLayer.ts';
import { invertPatch } from '../../../src/core/mask/correctionPatch.ts';
import { beginEdit, finishEdit, paintRuns } from '../../../src/core/mask/maskEdit.ts';
import { labelMaskFrom } from '../../support/labelMaskFrom.ts';
import { correctionsOf, maskFrom, pictureOf } from './maskPictures.ts';

function paint(mask: CorrectedMask, from: number, to: number, label: number) {
  const edit = beginEdit(mask);
  paintRuns(
    edit,
    collectRuns((visit) => visit(0, from, to)),
    { label },
  );
  return finishEdit(edit)!;
}

describe('a patch', () => {
  test('is applied, taken back and applied again', () => {
    const mask = maskFrom('RRWW');
    const patch = paint(mask, 1, 3, 3);
    applyPatch(mask, invertPatch(patch));
    expect([pictureOf(mask.effective), correctionsOf(mask.corrections)]).toEqual(['RRWW', '....']);
    applyPatch(mask, patch);
    expect([pictureOf(mask.effective), correctionsOf(mask.corrections)]).toEqual(['RBBW', '.BB.']);
  });

  test('out of turn is refused and changes nothing', () => {
    const mask = maskFrom('RRWW');
    const first = paint(mask, 0, 2, 2);
    paint(mask, 1, 3, 3);
    const before = encodeCorrections(mask.corrections);
    expect(() => applyPatch(mask, invertPatch(first))).toThrow(
      'pixel 1 holds 3, the patch was made where it held 2',
    );
    expect(() => applyPatch(mask, first)).toThrow('pixel 0 holds 2, the patch was made where it held 0');
    expect(encodeCorrections(mask.corrections)).toEqual(before);
    expect(pictureOf(mask.effective)).toBe('WBBW');
  });

  test('of another photo or with an unknown class is refused', () => {
    const patch = paint(maskFrom('RRWW'), 0, 4, 3);
    expect(() => applyPatch(maskFrom('RRW'), patch)).toThrow(
      'a patch of a 4 x 1 photo does not fit corrections of 3 x 1',
    );
    const twoClasses = correctedMask(labelMaskFrom('RRWW'), emptyCorrections(4, 1), 2);
    expect(() => applyPatch(twoClasses, patch)).toThrow('label 3: there are 2 classes');
    expect(twoClasses.corrections.tiles.size).toBe(0);
  });

  test('can be taken back after the frame was moved', () => {
    const mask = maskFrom('RRR.');
    const patch = paint(mask, 0, 3, 2);
    const moved = correctedMask(labelMaskFrom('..BB'), mask.corrections, 3);
    expect(pictureOf(moved.effective)).toBe('..WB');
    applyPatch(moved, invertPatch(patch));
    expect(pictureOf(moved.effective)).toBe('..BB');
    expect(moved.corrections.tiles.size).toBe(0);
    applyPatch(moved, patch);
    expect(correctionsOf(moved.corrections)).toBe('WWW.');
  });

  test('rebuilds a layer alone, without any mask', () => {
    const mask = maskFrom('RRWW');
    const patches = [paint(mask, 0, 2, 2), paint(mask, 1, 4, 3), paint(mask, 0, 1, 0)];
    const layer = emptyCorrections(4, 1);
    for (const patch of patches) applyPatchToLayer(layer, patch);
    expect(correctionsOf(layer)).toBe('.BBB');
  });
});
