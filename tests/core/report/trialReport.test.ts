import { expect, test } from 'vitest';
import type { ReportChoices } from '../../../src/core/report/reportSource.ts';
import { trialReport } from '../../../src/core/report/trialReport.ts';
import { countedPhoto, DATES, fullSource } from '../../support/reportSource.ts';

const ALL: ReportChoices = { ratingDates: null, withNames: true };

test('what was done is counted from the records', () => {
  const report = trialReport(fullSource(), ALL);
  expect(report.dates).toEqual([
    { ratingDate: DATES[0], daysFromSowing: 105, photos: 16, photographedPlots: 16, scoredPlots: 1 },
    { ratingDate: DATES[1], daysFromSowing: 140, photos: 16, photographedPlots: 16, scoredPlots: 0 },
  ]);
  expect(report.measuring).toMatchObject({
    photos: 32,
    unmeasured: 0,
    devices: [{ value: 'camera-mark', photos: 32 }],
    frames: [{ value: [517, 613], photos: 32 }],
    framesBy: [{ value: 'finder-confirmed', photos: 32 }],
    balanced: 32,
    millimetresPerPixel: [0.83, 0.83],
    models: [
      { id: 'start-mark', taught: null, photos: 16, ratingDates: [DATES[0]] },
      { id: 'taught-mark', taught: { photos: 23 }, photos: 16, ratingDates: [DATES[1]] },
    ],
  });
  // one photo corrected, another one accepted as it was; by hand: 1/3 of one of 32 masks
  expect(report.corrections).toMatchObject({ masks: 32, lookedAt: 2, corrected: 1 });
  expect(report.corrections!.meanChangedFraction).toBeCloseTo(0.3333 / 32, 12);
  expect(report.corrections!.byTreatment).toHaveLength(4);
});

test('points: by hand, 3 of 4 and 4 of 4 judged; the mask says weedy grass at all of them', () => {
  const { points } = trialReport(fullSource(), ALL);
  expect(points).toMatchObject({
    observer: 'observer-mark',
    photos: 2,
    points: 7,
    indeterminate: 1,
    withStrokes: 0,
  });
  // 2 of 3 and 3 of 4 are weedy grass
  expect(points!.agreement).toMatchObject({ photos: 2, points: 7 });
  expect(points!.agreement!.sameFraction).toBeCloseTo(5 / 7, 12);
  const weedy = points!.agreement!.classes[1]!.difference;
  expect(weedy.limits!.meanDifference).toBeCloseTo((40 - 200 / 3 + (40 - 75)) / 2, 9);
});

test('the observer who judged most is told of; photos a model was taught on are left out of the agreement', () => {
  const source = fullSource();
  const [first, second] = source.photos;
  const counted = [
    countedPhoto(first!, ['weedy-grass'], { observer: 'A' }),
    countedPhoto(second!, ['weedy-grass', 'ryegrass'], { observer: 'B', hasStrokes: true }),
    countedPhoto(second!, ['gone', 'ryegrass'], { observer: 'C' }),
  ];
  expect(trialReport({ ...source, counted }, ALL).points).toMatchObject({
    observer: 'B',
    otherObservers: ['A', 'C'],
    withStrokes: 1,
    ofOtherClasses: 1,
    agreement: null,
  });
});

test('a review of an earlier figure is no look at the present one', () => {
  const source = fullSource();
  const reviews = source.reviews.map((review) => ({ ...review, figureId: 'earlier' }));
  expect(trialReport({ ...source, reviews }, ALL).corrections!.lookedAt).toBe(1);
});

test('nothing by treatment before an analysis is declared', () => {
  const report = trialReport({ ...fullSource(), declarations: [], comparisons: [] }, ALL);
  expect(report).toMatchObject({ declared: null, finding: null, results: [], appendix: [] });
  expect(report.corrections!.byTreatment).toEqual([]);
});

test('a copy of one date holds no other date, and nothing over dates', () => {
  const report = trialReport(fullSource(), { ...ALL, ratingDates: [DATES[1]] });
  expect(report.datesLeftOut).toEqual([DATES[0]]);
  expect(report.measuring!.photos).toBe(16);
  expect(report.results.map(({ dates }) => dates.map(({ ratingDate }) => ratingDate))).toEqual([
    [DATES[1]],
    [DATES[1]],
    [DATES[1]],
  ]);
  expect(report.results.map(({ overDates }) => overDates)).toEqual([null, null, null]);
  expect(new Set(report.appendix.map(({ ratingDate }) => ratingDate))).toEqual(new Set([DATES[1]]));
  // what decides is on that date: the finding stays
  expect(report.finding).toMatchObject({ ok: true });
});

test('photos of no plot of the trial, and without a date, are no part of it', () => {
  const source = fullSource();
  const [first, second, ...rest] = source.photos;
  const photos = [{ ...first!, plot: '999' }, { ...second!, ratingDate: null }, ...rest];
  const report = trialReport({ ...source, photos }, ALL);
  expect(report.measuring!.photos).toBe(30);
  expect(report.appendix.some(({ photo }) => photo === first!.name || photo === second!.name)).toBe(false);
});

test('the conduct record is in the order of its days and holds what was done, not what was planned', () => {
  const { conduct } = trialReport(fullSource(), ALL);
  expect(conduct.map(({ kind, day }) => `${kind} ${day}`)).toEqual([
    'application 2027-02-25',
    'sowing 2027-03-08',
    `rating ${DATES[0]}`,
    `rating ${DATES[1]}`,
  ]);
  expect(conduct[2]).toMatchObject({ photos: 16, scoredPlots: 1, conditions: { notes: 'conditions-mark' } });
  expect(conduct[3]).toMatchObject({ photos: 16, scoredPlots: 0, conditions: null });
});

test('a declaration that cannot be read counts as none', () => {
  const source = fullSource();
  const declarations = [
    ...source.declarations,
    { by: 'L', at: '2027-08-09T00:00:00Z', reason: 'r', declared: null },
  ];
  expect(trialReport({ ...source, declarations }, ALL).declared).toBeNull();
});
