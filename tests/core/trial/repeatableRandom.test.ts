import { expect, test } from 'vitest';
import {
  repeatableRandom,
  seedFor,
  shuffled,
  splitmix64,
  xoshiro128StarStar,
} from '../../../src/core/trial/repeatableRandom.ts';

test('xoshiro128** gives the numbers of its authors’ C program from the state 1, 2, 3, 4', () => {
  // xoshiro128starstar.c (version 1.1, public domain), compiled with gcc and run
  const next = xoshiro128StarStar([1, 2, 3, 4]);
  expect(Array.from({ length: 10 }, next)).toEqual([
    11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
  ]);
});

test('splitmix64 gives the published numbers for the seed 1234567', () => {
  // Rosetta Code, "Pseudo-random numbers/Splitmix64"
  const next = splitmix64(1234567n);
  expect(Array.from({ length: 5 }, next)).toEqual([
    6457827717110365317n,
    3203168211198807973n,
    9817491932198370423n,
    4593380528125082431n,
    16408922859458223821n,
  ]);
});

test('a seed comes again, and another seed is another row of numbers', () => {
  const row = (seed: number) => Array.from({ length: 5 }, repeatableRandom(seed));
  expect(row(42)).toEqual(row(42));
  expect(row(42)).not.toEqual(row(43));
  expect(row(0).every((value) => value >= 0 && value < 1)).toBe(true);
  expect(() => repeatableRandom(-1)).toThrow('whole number from 0 to 4294967295, got -1');
});

test('shuffling makes every order of four equally likely', () => {
  // Chi-square over 24 orders, 23 df, 0.999 quantile 49.73 (scipy.stats.chi2.ppf(0.999, 23))
  const random = repeatableRandom(1);
  const counts = new Map<string, number>();
  for (let draw = 0; draw < 24_000; draw++) {
    const order = shuffled([1, 2, 3, 4], random).join('');
    counts.set(order, (counts.get(order) ?? 0) + 1);
  }
  expect(counts.size).toBe(24);
  const chiSquare = [...counts.values()].reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
  expect(chiSquare).toBeLessThan(49.73);
});

test('FNV-1a gives its published value', () => {
  // The hash of "1\na" is checked against a hand-run of FNV-1a; "foobar" = bf9cf968 is in the authors' test suite,
  // whose text cannot be made from a number, a line break and names.
  const fnv1a = (text: string) =>
    Number(
      [...text].reduce(
        (hash, one) => ((hash ^ BigInt(one.codePointAt(0)!)) * 16777619n) & 0xffffffffn,
        2166136261n,
      ),
    );
  expect(fnv1a('foobar')).toBe(0xbf9cf968);
  expect(seedFor(1, 'a')).toBe(fnv1a('1\na'));
});
