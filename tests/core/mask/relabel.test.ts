import { expect, test } from 'vitest';
import { collectRuns } from '../../../src/core/geometry/pixelRuns.ts';
import { correctedMask } from '../../../src/core/mask/correctedMask.ts';
import { encodeCorrections } from '../../../src/core/mask/correctionBytes.ts';
import { effectiveLabel, emptyCorrections, FIRST_WAITING } from '../../../src/core/mask/correctionLayer.ts';
import { type CorrectionPatch, patchFromNothing } from '../../../src/core/mask/correctionPatch.ts';
import { beginEdit, finishEdit, paintRuns } from '../../../src/core/mask/maskEdit.ts';
import {
  classListWith,
  entryTable,
  invertedTable,
  relabelLayer,
  relabelPatch,
} from '../../../src/core/mask/relabel.ts';
import { labelMaskFrom } from '../../support/labelMaskFrom.ts';

const BEFORE = ['rye', 'weed', 'ground'];
const AFTER = ['ground', 'rye', 'seedhead'];

/** Corrections of all three classes on a photo of one row. */
function painted() {
  const automatic = labelMaskFrom('RRRRRR');
  const mask = correctedMask(automatic, emptyCorrections(6, 1), 3);
  const edit = beginEdit(mask);
  [1, 2, 3].forEach((label, x) => {
    paintRuns(
      edit,
      collectRuns((visit) => visit(0, x, x + 1)),
      { label },
    );
  });
  return { mask, patch: finishEdit(edit) as CorrectionPatch };
}

test('entries follow their class to its new place; one that is gone waits without effect and comes back', () => {
  const table = entryTable(BEFORE, AFTER)!;
  const { mask, patch } = painted();
  const moved = relabelLayer(mask.corrections, table);
  expect([...moved.tiles.get(0)!.subarray(0, 4)]).toEqual([2, FIRST_WAITING, 1, 0]);
  // the middle pixel keeps what was computed
  const after = correctedMask(labelMaskFrom('RRRRRR'), moved, 3);
  expect([...after.effective.labels]).toEqual([2, 1, 1, 1, 1, 1]);
  expect(effectiveLabel(3, FIRST_WAITING)).toBe(3);

  const back = invertedTable(table);
  expect(encodeCorrections(relabelLayer(moved, back))).toEqual(encodeCorrections(mask.corrections));
  expect(relabelPatch(relabelPatch(patch, table), back)).toEqual(patch);
  expect(relabelPatch(patch, table)).toEqual(patchFromNothing(moved));
});

test('a list that grew at its end changes nothing', () => {
  expect(entryTable(BEFORE, [...BEFORE, 'seedhead'])).toBeNull();
  expect(classListWith(BEFORE, AFTER)).toEqual(['rye', 'weed', 'ground', 'seedhead']);
});

test('an entry beyond the list it was stored with is refused', () => {
  const { mask } = painted();
  expect(() => relabelLayer(mask.corrections, entryTable(['weed', 'rye'], BEFORE)!)).toThrow(
    'entry 3 is no class of the list it was stored with',
  );
});
