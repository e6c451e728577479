import { expect, test } from 'vitest';
import { leastColourDifference } from '../../../src/core/colour/colourVision.ts';
import {
  CLASS_COLOURS,
  CLASS_KINDS,
  classesLikeColour,
  LEAST_COLOUR_DIFFERENCE,
  movedClass,
  newCoverClass,
  withClass,
  withoutClass,
} from '../../../src/core/trial/classList.ts';
import type { CoverClass } from '../../../src/core/trial/coverClass.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import { coverClassSchema } from '../../../src/core/trial/trial.ts';

test.each([
  // the colour difference of this file's colours worked out apart with numpy (matrices as in colourVision.ts)
  ['#0072b2', '#f0e442', 124.1],
  ['#f0e442', '#d55e00', 35.5],
  ['#f0e442', '#e69f00', 17.3],
  ['#009e73', '#cc79a7', 19.2],
  ['#0072b2', '#0072b2', 0],
])('%s and %s are %f apart for whoever tells them apart worst', (a, b, expected) => {
  expect(leastColourDifference(a, b)).toBeCloseTo(expected, 1);
  expect(leastColourDifference(b, a)).toBeCloseTo(expected, 1);
});

test('red and green of one lightness are far apart only for those who have both cones', () => {
  expect(leastColourDifference('#c05050', '#50864a')).toBeLessThan(30);
});

test('every colour of the palette is told from every other', () => {
  for (const [i, a] of CLASS_COLOURS.entries()) {
    for (const b of CLASS_COLOURS.slice(0, i)) {
      expect(leastColourDifference(a, b), `${a} ${b}`).toBeGreaterThan(LEAST_COLOUR_DIFFERENCE);
    }
  }
});

test('classes added one after the other are all different, and such as the plan takes', () => {
  let classes: CoverClass[] = [...DEFAULT_CLASSES];
  for (const kind of CLASS_KINDS) classes = withClass(classes, newCoverClass(classes, kind, 'Moss, wet'));
  for (const field of ['id', 'key', 'colour'] as const) {
    expect(new Set(classes.map((one) => one[field])).size, field).toBe(classes.length);
  }
  for (const one of classes) expect(coverClassSchema.safeParse(one).success, one.id).toBe(true);
});

test('tissue counts to its plant, other kinds stand on their own', () => {
  const groupOf = (kind: (typeof CLASS_KINDS)[number]) =>
    newCoverClass(DEFAULT_CLASSES, kind, 'Anything').reportingGroup;
  expect(CLASS_KINDS.map(groupOf)).toEqual([
    'green-base-turf',
    'weedy-grass',
    'ryegrass',
    'broadleaf-weeds',
    'anything',
  ]);
  expect(newCoverClass([DEFAULT_CLASSES[0]!, DEFAULT_CLASSES[2]!], 'seedheads', 'S').reportingGroup).toBe(
    'seedheads',
  );
});

test('a name without letters, and one that is there already', () => {
  expect(newCoverClass(DEFAULT_CLASSES, 'other', '…').id).toBe('class');
  expect(newCoverClass(DEFAULT_CLASSES, 'other', 'Ryegrass')).toMatchObject({ id: 'ryegrass-2', key: 'Y' });
  expect(newCoverClass(DEFAULT_CLASSES, 'other', 'Éclair').id).toBe('eclair');
});

test('what was added to a class that goes stands on its own', () => {
  const seedheads = newCoverClass(DEFAULT_CLASSES, 'seedheads', 'Seedheads');
  const left = withoutClass([...DEFAULT_CLASSES, seedheads], 'weedy-grass');
  expect(left.map(({ id, reportingGroup }) => [id, reportingGroup])).toEqual([
    ['ryegrass', 'ryegrass'],
    ['bare-ground', 'bare-ground'],
    ['seedheads', 'seedheads'],
  ]);
});

test('classes move, and stop at the ends', () => {
  const ids = (list: readonly CoverClass[]) => list.map(({ id }) => id.slice(0, 1)).join('');
  expect(ids(movedClass(DEFAULT_CLASSES, 'bare-ground', -1))).toBe('rbw');
  expect(ids(movedClass(DEFAULT_CLASSES, 'ryegrass', 5))).toBe('wbr');
  expect(ids(movedClass(DEFAULT_CLASSES, 'ryegrass', -1))).toBe('rwb');
  expect(ids(movedClass(DEFAULT_CLASSES, 'moss', 1))).toBe('rwb');
});

test('a colour too like another names the class', () => {
  expect(classesLikeColour(DEFAULT_CLASSES, { id: 'new', colour: '#0070b0' }).map(({ id }) => id)).toEqual([
    'ryegrass',
  ]);
  expect(classesLikeColour(DEFAULT_CLASSES, DEFAULT_CLASSES[0]!)).toEqual([]);
});
