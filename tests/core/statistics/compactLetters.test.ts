import fc from 'fast-check';
import { expect, test } from 'vitest';
import { compactLetters } from '../../../src/core/statistics/compactLetters.ts';
import { referenceValues } from '../../support/referenceValues.ts';

/** Piepho 2004 as multcompView prints it; the commands stand in the file. */
const { cases } = referenceValues<{
  cases: { name: string; significant_pairs: [string, string][]; letters: Record<string, string> }[];
}>('compact-letters.json');

/** Letters renamed in order of first appearance. */
function renamed(letters: readonly string[]): string[] {
  const names = new Map<string, string>();
  return letters.map((own) =>
    [...own]
      .map((letter) => {
        if (!names.has(letter)) names.set(letter, String.fromCharCode(97 + names.size));
        return names.get(letter)!;
      })
      .sort()
      .join(''),
  );
}

test.each(cases)('$name', ({ significant_pairs, letters }) => {
  const names = Object.keys(letters);
  const differs = (i: number, j: number): boolean =>
    significant_pairs.some(
      ([a, b]) => (a === names[i] && b === names[j]) || (a === names[j] && b === names[i]),
    );
  expect(renamed(compactLetters(names.length, differs))).toEqual(renamed(Object.values(letters)));
});

test('nothing differs: one letter; everything differs: a letter each', () => {
  expect(compactLetters(3, () => false)).toEqual(['a', 'a', 'a']);
  expect(compactLetters(3, () => true)).toEqual(['a', 'b', 'c']);
  expect(compactLetters(1, () => true)).toEqual(['a']);
});

/** Letters of a display that has more than 52: "(53)" is one letter. */
const split = (own: string): string[] => own.match(/\(\d+\)|[a-zA-Z]/g) ?? [];

test('any pattern: two share a letter exactly when they do not differ, and no letter is idle', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 2, max: 9 }),
      fc.array(fc.boolean(), { minLength: 36, maxLength: 36 }),
      (k, bits) => {
        const differs = (i: number, j: number): boolean => bits[(j * (j - 1)) / 2 + i]!;
        const found = compactLetters(k, differs).map(split);
        for (let j = 1; j < k; j += 1) {
          for (let i = 0; i < j; i += 1) {
            expect(found[i]!.some((letter) => found[j]!.includes(letter))).toBe(!differs(i, j));
          }
        }
        expect(found.every((own) => own.length > 0)).toBe(true);
        const used = [...new Set(found.flat())];
        for (const letter of used) {
          const rest = found.map((own) => own.filter((other) => other !== letter));
          const stillComplete = rest.every(
            (own, j) =>
              own.length > 0 &&
              rest.slice(0, j).every((other, i) => differs(i, j) || other.some((x) => own.includes(x))),
          );
          expect(stillComplete, `letter ${letter} is idle`).toBe(false);
        }
      },
    ),
    { seed: 20270412, numRuns: 300 },
  );
});

test('sixty treatments in a chain take no time', () => {
  const found = compactLetters(60, (i, j) => j - i > 4).map(split);
  for (let i = 0; i < 60; i += 1) {
    for (let j = i + 1; j < 60; j += 1) {
      expect(found[i]!.some((letter) => found[j]!.includes(letter))).toBe(j - i <= 4);
    }
  }
  expect(found[59]!.at(-1)).toBe('(56)');
});
