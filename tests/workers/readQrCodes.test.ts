import { expect, test } from 'vitest';
import { writePlotLabel } from '../../src/core/trial/plotLabel.ts';
import { type LaidLabel, photoWithLabels } from '../support/labelPictures.ts';
import { readLabels } from '../support/readLabels.ts';

const textOf = (plot: string, trial = 'K7QF3M') =>
  writePlotLabel({ trial, plot, place: null, ratingDate: null });
const lying: LaidLabel = {
  text: textOf('203'),
  modulePx: 5,
  turnDegrees: 0,
  tiltDegrees: 0,
  shadow: 1,
  blurPx: 0,
};

test.each<[string, readonly LaidLabel[]]>([
  ['lying flat', [lying]],
  ['turned and tilted', [{ ...lying, turnDegrees: 217, tiltDegrees: 35 }]],
  ['with the edge of a shadow over it', [{ ...lying, turnDegrees: 40, shadow: 0.45 }]],
  ['blurred', [{ ...lying, blurPx: 1.5 }]],
])('a label in a rendered photo is read: %s', async (_, labels) => {
  const jpeg = await photoWithLabels('2027-05-17_101.jpg', 1600, labels, 3);
  expect(await readLabels(jpeg)).toEqual(labels.map(({ text }) => text));
});

test('two labels in view are both told; a photo without one has none', async () => {
  const other = { ...lying, text: textOf('999', 'ZZ9XT4'), turnDegrees: 90 };
  const jpeg = await photoWithLabels('2027-06-21_203.jpg', 1600, [lying, other], 11);
  expect((await readLabels(jpeg)).sort()).toEqual([lying.text, other.text].sort());
  expect(await readLabels(await photoWithLabels('2027-06-21_203.jpg', 1600, [], 1))).toEqual([]);
});
