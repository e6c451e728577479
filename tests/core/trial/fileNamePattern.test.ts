import { expect, test } from 'vitest';
import {
  DEFAULT_FILE_NAME_PATTERNS,
  fileNameReader,
  patternProblem,
  previewPattern,
} from '../../../src/core/trial/fileNamePattern.ts';
import { sampleTrial } from './samplePlan.ts';

const plots = sampleTrial.walkingOrder;
const read = (pattern: string, fileName: string) => {
  const result = fileNameReader([pattern], plots).read(fileName);
  if (!result.ok) return result.problem.code;
  const { plot, place, date, time } = result.reading;
  return [plot, place, date, time];
};

test.each([
  ['{date}_{plot}', '2027-04-12_101.jpg', ['101', null, '2027-04-12', null]],
  ['{date}_{plot}', 'season/20270412_404.JPEG', ['404', null, '2027-04-12', null]],
  ['{date}_{plot}_{place}', '2027_04_12_101_2.jpg', ['101', 2, '2027-04-12', null]],
  ['IMG_{date}_{time}', 'IMG_20270412_091420.jpg', [null, null, '2027-04-12', '09:14:20']],
  ['{any}{date}{any}{time}', 'photo 2027-04-12 at 09.14.20.heic', [null, null, '2027-04-12', '09:14:20']],
  ['plot{plot}{any}', 'Plot101 (1).jpg', ['101', null, null, null]],
  ['{plot}', '101.jpg', ['101', null, null, null]],
  // never part of a longer number
  ['{any}{plot}', 'IMG_0101.jpg', 'name-with-unknown-plot'],
  ['{any}{plot}{any}', 'IMG_20270101_101502.jpg', 'name-with-unknown-plot'],
  ['{date}_{plot}', '2027-04-12_999.jpg', 'name-with-unknown-plot'],
  ['{date}_{plot}', '2027-13-12_101.jpg', 'name-with-impossible-date'],
  ['{date}_{plot}', 'IMG_0017.jpg', 'name-fits-no-pattern'],
  ['{date}_{plot}', '2027-04_12_101.jpg', 'name-fits-no-pattern'],
])('%s reads %s', (pattern, fileName, expected) => {
  expect(read(pattern, fileName)).toEqual(expected);
});

test('all sample photos are read by the patterns a new trial has', () => {
  const reader = fileNameReader(DEFAULT_FILE_NAME_PATTERNS, plots);
  let count = 0;
  for (const date of sampleTrial.ratingDates) {
    for (const plot of plots) {
      expect(reader.read(`${date}_${plot}.jpg`)).toMatchObject({ ok: true, reading: { plot, date } });
      count++;
    }
  }
  expect(count).toBe(64);
});

test('a plot’s name with signs of patterns in it stands for itself', () => {
  const reader = fileNameReader(['{plot}'], ['1.1', 'a-1']);
  expect(reader.read('1.1.jpg')).toMatchObject({ ok: true, reading: { plot: '1.1' } });
  expect(reader.read('1x1.jpg').ok).toBe(false);
  expect(reader.read('A-1.jpg')).toMatchObject({ ok: true, reading: { plot: 'a-1' } });
});

test.each([
  ['{date}_{plto}', 'pattern-unknown-word'],
  ['{plot}_{plot}', 'pattern-word-twice'],
  ['{date_{plot}', 'pattern-brace-open'],
  ['IMG_{any}', 'pattern-without-words'],
])('the pattern %s is refused', (pattern, code) => {
  expect(patternProblem(pattern)?.code).toBe(code);
  expect(() => fileNameReader([pattern], plots)).toThrow(RangeError);
});

test('a preview tells for each name what the pattern makes of it', () => {
  const preview = previewPattern('{date}_{plot}', ['2027-04-12_101.jpg', 'IMG_1.jpg'], plots);
  expect(preview.map(({ fileName, result }) => [fileName, result.ok])).toEqual([
    ['2027-04-12_101.jpg', true],
    ['IMG_1.jpg', false],
  ]);
});
