import { expect, test } from 'vitest';
import { cardBalance } from '../../../src/core/colour/cardBalance.ts';

const card = (colour: readonly [number, number, number]) => {
  const data = new Uint8ClampedArray(4 * 20 * 20);
  for (let i = 0; i < data.length; i += 4) data.set([...colour, 255], i);
  return { widthPx: 20, heightPx: 20, data };
};
const WHOLE = [2, 2, 16, 16] as const;

test('a bluish card becomes grey with the green of before', () => {
  const balance = cardBalance(card([150, 160, 180]), WHOLE)!;
  expect(balance.before).toEqual([150, 160, 180]);
  expect(balance.after).toEqual([160, 160, 160]);
  // linear light of 150, 160 and 180: 0.30499, 0.35153, 0.45641 (IEC 61966-2-1, by hand)
  expect(balance.gains[0]).toBeCloseTo(0.35153 / 0.30499, 3);
  expect(balance.gains[1]).toBe(1);
  expect(balance.gains[2]).toBeCloseTo(0.35153 / 0.45641, 3);
  expect(balance.capped).toBe(false);
});

test('what is hardly grey is held at the largest gain and said to be; an overexposed card has no balance', () => {
  expect(cardBalance(card([60, 160, 160]), WHOLE)).toMatchObject({ capped: true, gains: [2, 1, 1] });
  expect(cardBalance(card([255, 255, 255]), WHOLE)).toBeNull();
  expect(cardBalance(card([120, 120, 120]), [30, 30, 5, 5])).toBeNull();
});
