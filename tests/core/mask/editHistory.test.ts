import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type EditHistory,
  NO_EDITS,
  recordEdit,
  redoStep,
  undoStep,
} from '../../../src/core/mask/editHistory.ts';

const withEdits = (...ids: string[]) =>
  ids.reduce((history, id) => recordEdit(history, id).history, NO_EDITS);

test('edits are taken back last first, and come again first first', () => {
  const a = undoStep(withEdits('a', 'b'))!;
  expect(a.patchId).toBe('b');
  const b = undoStep(a.history)!;
  expect(b.patchId).toBe('a');
  expect(undoStep(b.history)).toBeNull();
  expect(redoStep(b.history)!.patchId).toBe('a');
  expect(redoStep(redoStep(b.history)!.history)!.patchId).toBe('b');
});

test('a new edit clears what could be redone, and says so', () => {
  const undone = undoStep(undoStep(withEdits('a', 'b', 'c'))!.history)!.history;
  const { history, forgotten } = recordEdit(undone, 'd');
  expect(history).toEqual({ done: ['a', 'd'], undone: [] });
  expect([...forgotten].sort()).toEqual(['b', 'c']);
  expect(redoStep(history)).toBeNull();
});

test('nothing to undo or redo at the start', () => {
  expect([undoStep(NO_EDITS), redoStep(NO_EDITS)]).toEqual([null, null]);
});

test('one patch is one edit', () => {
  expect(() => recordEdit(withEdits('a'), 'a')).toThrow('patch a is in the history already');
  expect(() => recordEdit(undoStep(withEdits('a'))!.history, 'a')).toThrow('already');
});

test('behaves as a list with a mark in it, whatever is done', () => {
  fc.assert(
    fc.property(fc.array(fc.constantFrom('edit', 'undo', 'redo'), { maxLength: 60 }), (steps) => {
      let history: EditHistory = NO_EDITS;
      let list: string[] = [];
      let mark = 0;
      steps.forEach((step, i) => {
        if (step === 'edit') {
          list = [...list.slice(0, mark), `p${i}`];
          mark = list.length;
          history = recordEdit(history, `p${i}`).history;
        } else {
          const taken = step === 'undo' ? undoStep(history) : redoStep(history);
          const expected = step === 'undo' ? list[mark - 1] : list[mark];
          expect(taken?.patchId).toBe(expected);
          if (taken) {
            history = taken.history;
            mark += step === 'undo' ? -1 : 1;
          }
        }
        expect(history.done).toEqual(list.slice(0, mark));
        expect(history.undone.toReversed()).toEqual(list.slice(mark));
      });
    }),
    { seed: 19, numRuns: 100 },
  );
});
