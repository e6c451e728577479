import { describe, expect, test } from 'vitest';
import { readPhotoAnnotations, writePhotoAnnotations } from '../../../src/core/exchange/photoAnnotations.ts';
import { annotationFieldText, annotationsProblemText } from '../../../src/core/text/cli.ts';

const full = {
  plot: '101',
  ratingDate: '2027-05-04',
  frame: [
    [210, 180],
    [1790, 175],
    [1800, 1395],
    [200, 1400],
  ],
  frameSizeMm: [1000, 1000],
  neutral: [900, 640, 120, 118],
  ignore: [
    [
      [0, 0],
      [50, 0],
      [50, 50],
    ],
  ],
  strokes: [
    {
      class: 'ryegrass',
      radiusPx: 4,
      points: [
        [412, 388],
        [430, 402],
      ],
    },
  ],
  pointCalls: [{ at: [611.5, 702], class: 'bare-ground', observer: 'K' }],
};
const classes = ['ryegrass', 'weedy-grass', 'bare-ground'];
const fileOf = (photos: unknown, more: object = {}) =>
  JSON.stringify({ type: 'photo-annotations', version: 1, classes, photos, ...more });

function read(text: string) {
  const reading = readPhotoAnnotations(text);
  if (!reading.ok) throw new Error(annotationsProblemText(reading.problem));
  return reading;
}

describe('reading', () => {
  test('everything a person can mark', () => {
    const { annotations, problems } = read(fileOf({ 'p101.jpg': full }));
    expect(problems).toEqual([]);
    expect(annotations.classes.map(({ id, key }) => [id, key])).toEqual([
      ['ryegrass', 'R'],
      ['weedy-grass', 'W'],
      ['bare-ground', 'B'],
    ]);
    expect(annotations.photos.get('p101.jpg')).toEqual({
      plot: '101',
      ratingDate: '2027-05-04',
      frame: { corners: full.frame, sizeMm: [1000, 1000] },
      neutral: [900, 640, 120, 118],
      ignored: full.ignore,
      strokes: [{ classId: 'ryegrass', radiusPx: 4, points: full.strokes[0]!.points }],
      pointCalls: [
        { at: [611.5, 702], classId: 'bare-ground', observer: 'K', calledAt: null, gapRule: null },
      ],
    });
  });

  test('a photo of which nothing but the name is there', () => {
    const { annotations } = read(
      JSON.stringify({ type: 'photo-annotations', version: 1, photos: { 'a.jpg': {} } }),
    );
    expect(annotations.classes).toHaveLength(3);
    expect(annotations.photos.get('a.jpg')).toMatchObject({
      plot: null,
      frame: null,
      ignored: [],
      strokes: [],
    });
  });

  test('classes of a trial get letters and colours of their own', () => {
    const ids = ['ryegrass', 'seedheads', 'base turf', 'rushes'];
    const { annotations } = read(fileOf({}, { classes: ids }));
    const keys = annotations.classes.map(({ key }) => key);
    expect(new Set(keys).size).toBe(4);
    expect(new Set(annotations.classes.map(({ colour }) => colour)).size).toBe(4);
    expect(annotations.classes[1]).toMatchObject({
      id: 'seedheads',
      name: 'seedheads',
      startRole: null,
      key: 'S',
    });
  });
});

test('what is written is read as it was', () => {
  const { annotations } = read(fileOf({ 'p101.jpg': full, 'ü "quoted".jpg': {} }));
  expect(read(writePhotoAnnotations(annotations)).annotations).toEqual(annotations);
  const empty = read(fileOf({})).annotations;
  expect(read(writePhotoAnnotations(empty)).annotations).toEqual(empty);
});

test.each<[string, object, string, string]>([
  ['a day that is not in the calendar', { ratingDate: '2027-02-29' }, 'ratingDate', '"2027-02-29"'],
  ['three corners', { frame: full.frame.slice(1) }, 'frame', '[[1790,175],[1800,1395],[200,1400]]'],
  [
    'a corner in words',
    {
      frame: [
        [1, 'two'],
        [2, 2],
        [3, 3],
        [4, 4],
      ],
    },
    'frame[0][1]',
    '"two"',
  ],
  ['a frame of no width', { frameSizeMm: [0, 1000] }, 'frameSizeMm[0]', '0'],
  ['a flat neutral reference', { neutral: [1, 1, 0, 5] }, 'neutral[2]', '0'],
  [
    'a polygon of two points',
    {
      ignore: [
        [
          [0, 0],
          [1, 1],
        ],
      ],
    },
    'ignore[0]',
    '[[0,0],[1,1]]',
  ],
  [
    'a class the file does not have',
    { strokes: [{ ...full.strokes[0], class: 'moss' }] },
    'strokes[0].class',
    '"moss"',
  ],
  [
    'a stroke without radius',
    { strokes: [{ class: 'ryegrass', points: [[1, 1]] }] },
    'strokes[0].radiusPx',
    'nothing',
  ],
  [
    'a stroke without points',
    { strokes: [{ class: 'ryegrass', radiusPx: 1, points: [] }] },
    'strokes[0].points',
    '[]',
  ],
  [
    'a number too large for JSON',
    { pointCalls: [{ at: [1e300, 1], class: 'ryegrass' }] },
    'pointCalls[0].at[0]',
    '1e+300',
  ],
  ['a field mistyped', { ingore: [] }, 'ingore', '[]'],
  ['a plot without a name', { plot: ' ' }, 'plot', '" "'],
])('%s: that photo is named with field and value, the other is read', (_, entry, field, met) => {
  const { annotations, problems } = read(fileOf({ 'bad.jpg': entry, 'good.jpg': full }));
  expect(problems).toMatchObject([{ photo: 'bad.jpg', field, met }]);
  expect(annotationFieldText(problems[0]!)).toContain(`"${field}" is ${met}; allowed: `);
  expect([...annotations.photos.keys()]).toEqual(['good.jpg']);
});

test('a photo that is no object', () => {
  const { problems } = read(fileOf({ 'bad.jpg': 7 }));
  expect(problems).toEqual([{ photo: 'bad.jpg', field: '', met: '7', allowed: 'photo' }]);
});

test.each<[string, string, string]>([
  ['no JSON', '{"type": ', 'not-json'],
  ['another type', '{"type": "comparison", "version": 1}', 'other-type'],
  ['a list', '[]', 'other-type'],
  ['no version', '{"type": "photo-annotations", "photos": {}}', 'bad-version'],
  ['a newer version', '{"type": "photo-annotations", "version": 2, "photos": {}}', 'newer-version'],
  ['no photos', '{"type": "photo-annotations", "version": 1}', 'bad-photos'],
  ['photos as a list', fileOf([]), 'bad-photos'],
  ['a class twice', fileOf({}, { classes: ['a', 'a'] }), 'bad-classes'],
  ['no classes', fileOf({}, { classes: [] }), 'bad-classes'],
  ['a field nobody knows', fileOf({}, { clases: [] }), 'unknown-field'],
])('the file is refused with a sentence: %s', (_, text, code) => {
  const reading = readPhotoAnnotations(text);
  expect(reading).toMatchObject({ ok: false, problem: { code } });
  if (!reading.ok) expect(annotationsProblemText(reading.problem)).toMatch(/\.$/);
});
