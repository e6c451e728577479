import { expect, it } from 'vitest';
import { takeShare } from '../../../src/core/mask/takeShare.ts';
import { seededRandom } from '../../support/seededRandom.ts';

const taken = (scores: number[], weights: number[], share: number): string =>
  takeShare(Uint16Array.from(scores), Int32Array.from(weights), share).join('');

it('takes the highest scores first, and among equals the first in order', () => {
  expect(taken([5, 9, 7, 9], [1, 1, 1, 1], 0.5)).toBe('0101');
  expect(taken([3, 3, 3, 3], [1, 1, 1, 1], 0.5)).toBe('1100');
  expect(taken([0, 65535, 0, 0], [1, 1, 1, 1], 0.75)).toBe('1110');
});

it('takes none or all at the ends, and never a cell without ground', () => {
  expect(taken([5, 9, 7], [1, 1, 1], 0)).toBe('000');
  expect(taken([5, 0, 7], [1, 1, 1], 1)).toBe('111');
  expect(taken([9, 5, 7], [0, 1, 1], 1)).toBe('011');
  expect(taken([9], [0], 1)).toBe('0');
});

it('reaches the share to half a cell, whatever the weights and ties', () => {
  const random = seededRandom(11);
  for (let trial = 0; trial < 200; trial += 1) {
    const size = 1 + Math.floor(random() * 300);
    const scores = Uint16Array.from({ length: size }, () => Math.floor(random() * 20));
    const weights = Int32Array.from({ length: size }, () => 1000 + Math.floor(random() * 1000));
    const share = random();
    const mask = takeShare(scores, weights, share);
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const reached = weights.reduce((sum, weight, cell) => sum + weight * mask[cell]!, 0);
    expect(Math.abs(reached - share * total)).toBeLessThanOrEqual(2000);
    const lowestTaken = Math.min(...[...scores].filter((_, cell) => mask[cell] === 1));
    const highestLeft = Math.max(...[...scores].filter((_, cell) => mask[cell] === 0));
    expect(lowestTaken).toBeGreaterThanOrEqual(highestLeft);
  }
});
