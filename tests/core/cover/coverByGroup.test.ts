import { expect, test } from 'vitest';
import { classesByGroup, coverByGroup } from '../../../src/core/cover/coverByGroup.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';

const [rye, weedy, bare] = DEFAULT_CLASSES as [
  (typeof DEFAULT_CLASSES)[0],
  (typeof DEFAULT_CLASSES)[0],
  (typeof DEFAULT_CLASSES)[0],
];
const seedheads = { ...weedy, id: 'seedheads', name: 'Seedheads', startRole: null, key: 'S' };
const cover = [
  { classId: 'seedheads', coverFraction: 0.0625 },
  { classId: 'ryegrass', coverFraction: 0.5 },
  { classId: 'bare-ground', coverFraction: 0.25 },
  { classId: 'weedy-grass', coverFraction: 0.1875 },
];

test('seedheads count to the plant, whatever the order of classes and of cover', () => {
  const groups = coverByGroup([seedheads, rye, bare, weedy], cover);
  expect(groups.map((one) => [one!.group, one!.lead.name, one!.coverFraction])).toEqual([
    ['weedy-grass', 'Weedy grass', 0.25],
    ['ryegrass', 'Ryegrass', 0.5],
    ['bare-ground', bare.name, 0.25],
  ]);
  expect(groups[0]!.members.map(({ coverClass, coverFraction }) => [coverClass.id, coverFraction])).toEqual([
    ['seedheads', 0.0625],
    ['weedy-grass', 0.1875],
  ]);
});

test('groups of one class are the classes', () => {
  const groups = coverByGroup(DEFAULT_CLASSES, cover);
  expect(groups.map((one) => one!.coverFraction)).toEqual([0.5, 0.1875, 0.25]);
});

test('a group with a class without a figure has none: that is not 0', () => {
  expect(coverByGroup([seedheads, weedy, rye], cover.slice(1))[0]).toBeNull();
  expect(coverByGroup([seedheads, weedy, rye], cover.slice(1))[1]!.coverFraction).toBe(0.5);
});

test('a group that is no class is led by its first', () => {
  const moss = { ...rye, id: 'moss', reportingGroup: 'others' };
  expect(classesByGroup([moss])[0]!.lead.id).toBe('moss');
});
