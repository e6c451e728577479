import { expect, test } from 'vitest';
import { poolSize } from '../../../src/app/measuring/poolSize.ts';

const desk = { cores: 8, memoryGiB: 8, coarsePointer: false, screenShorterSidePx: 1080 };

test.each([
  ['a desk keeps one core for the page', desk, 7],
  ['a browser that does not tell its memory', { ...desk, memoryGiB: null }, 7],
  ['one core', { ...desk, cores: 1 }, 1],
  ['two cores', { ...desk, cores: 2 }, 1],
  ['a phone', { ...desk, coarsePointer: true, screenShorterSidePx: 412 }, 1],
  ['a tablet', { ...desk, coarsePointer: true, screenShorterSidePx: 820 }, 7],
  [
    'a small window is no phone: the screen counts, and the pointer',
    { ...desk, screenShorterSidePx: 500 },
    7,
  ],
  ['little memory', { ...desk, memoryGiB: 4 }, 1],
])('%s', (_what, device, expected) => {
  expect(poolSize(device)).toBe(expected);
});
