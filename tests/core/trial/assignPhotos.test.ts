import { expect, test } from 'vitest';
import { assignmentReasonText } from '../../../src/core/text/trial.ts';
import {
  type AssignmentPlan,
  assignPhotos,
  type PhotoAssignment,
} from '../../../src/core/trial/assignPhotos.ts';
import { DEFAULT_FILE_NAME_PATTERNS } from '../../../src/core/trial/fileNamePattern.ts';
import { photoBoard } from '../../../src/core/trial/photoBoard.ts';
import type { PhotoToAssign } from '../../../src/core/trial/photoEvidence.ts';
import { writePlotLabel } from '../../../src/core/trial/plotLabel.ts';
import { repeatableRandom, shuffled } from '../../../src/core/trial/repeatableRandom.ts';
import { BATCH_DATES, BATCH_PLAN, batchOutcome, messyBatch, TRIAL_CODE, untidyWalk } from './messyBatch.ts';
import { sampleTrial } from './samplePlan.ts';

/**
 * The mixed batch. Seeds 1 to 100 were used while the walk model was made and 1001 to 1025 were looked at once on the way; these were not.
 *
 * What nobody can see from labels, names and times is not in it: two plots photographed in the other's turn without a label
 * on either, and a picture of something else taken just where a plot was left out (the tests after this one show both).
 */
const HELD_OUT_SEEDS = Array.from({ length: 25 }, (_, index) => 2001 + index);

test('of a mixed batch 98 % find their plot, the rest are held, none is certain and wrong', () => {
  const outcomes = HELD_OUT_SEEDS.map((seed) => batchOutcome(messyBatch(seed), BATCH_PLAN));
  const photos = outcomes.reduce((sum, { ofPlots }) => sum + ofPlots, 0);
  const right = outcomes.reduce((sum, { share, ofPlots }) => sum + share * ofPlots, 0);
  const worst = Math.min(...outcomes.map(({ share }) => share));
  console.log(
    `photos to plots: ${photos} photos in ${outcomes.length} batches, ${((100 * right) / photos).toFixed(2)} % right, ` +
      `worst batch ${(100 * worst).toFixed(1)} %, the rest held`,
  );
  expect(Math.min(...outcomes.map(({ ofPlots }) => ofPlots))).toBeGreaterThanOrEqual(300);
  expect(outcomes.flatMap(({ wrong }) => wrong)).toEqual([]);
  expect(right / photos).toBeGreaterThanOrEqual(0.98);
});

test('without trust in the order, walks without labels are held and nothing else changes for the worse', () => {
  const batch = messyBatch(1001);
  const trusted = assignPhotos(batch, BATCH_PLAN);
  const careful = assignPhotos(batch, { ...BATCH_PLAN, orderTrusted: false });
  expect(batchOutcome(batch, { ...BATCH_PLAN, orderTrusted: false }).wrong).toEqual([]);
  batch.forEach((photo, index) => {
    const unlabelledWalk = photo.story.startsWith(BATCH_DATES[2]!);
    if (unlabelledWalk) expect(careful[index]!.certainty).toBe('doubtful');
    else if (careful[index]!.certainty !== 'doubtful')
      expect(careful[index]!.plot).toBe(trusted[index]!.plot);
  });
});

test('an untidy walk with nothing but its order: held if the order is not vouched for, and seldom wrong if it is', () => {
  // The limit of the order alone: a plot left out and a picture of something else can make up for each other, and the
  // photos between them then go one plot astray. docs/trial-plan.md tells the figure.
  const walks = Array.from({ length: 100 }, (_, index) => untidyWalk(5001 + index));
  const careful = walks.flatMap((walk) => assignPhotos(walk, { ...BATCH_PLAN, orderTrusted: false }));
  expect(new Set(careful.map(({ certainty }) => certainty))).toEqual(new Set(['doubtful']));
  const trusted = walks.map((walk) => batchOutcome(walk, BATCH_PLAN));
  const photos = trusted.reduce((sum, { ofPlots }) => sum + ofPlots, 0);
  const wrong = trusted.reduce((sum, one) => sum + one.wrong.length, 0);
  const right = trusted.reduce((sum, { share, ofPlots }) => sum + share * ofPlots, 0);
  const walksWithWrong = trusted.filter((one) => one.wrong.length > 0).length;
  console.log(
    `untidy walks by order alone, vouched for: ${((100 * right) / photos).toFixed(1)} % right, ` +
      `${((100 * wrong) / photos).toFixed(1)} % wrong, in ${walksWithWrong} of ${walks.length} walks`,
  );
  expect(wrong / photos).toBeLessThan(0.03);
});

const plots = sampleTrial.walkingOrder;
const plan: AssignmentPlan = {
  ...BATCH_PLAN,
  walkingOrder: plots,
  ratingDates: sampleTrial.ratingDates,
  fileNamePatterns: DEFAULT_FILE_NAME_PATTERNS,
};

const label = (plot: string, trial = TRIAL_CODE) =>
  writePlotLabel({ trial, plot, place: null, ratingDate: null });

function photo(name: string, parts: Partial<PhotoToAssign> = {}): PhotoToAssign {
  return {
    photo: name,
    fileName: `${name}.jpg`,
    captureTime: null,
    utcOffsetMinutes: null,
    device: 'phone',
    labelTexts: [],
    sha256: null,
    ...parts,
  };
}

/** A walk of the sample trial: photo i at 9:00 + i * 40 s. */
function walkOf(
  count: number,
  parts: (index: number) => Partial<PhotoToAssign> = () => ({}),
): PhotoToAssign[] {
  return Array.from({ length: count }, (_, index) => {
    const second = 9 * 3600 + 40 * index;
    const hms = [Math.floor(second / 3600), Math.floor(second / 60) % 60, second % 60];
    const time = hms.map((part) => String(part).padStart(2, '0')).join(':');
    return photo(`IMG_${String(700 + index)}`, { captureTime: `2027:04:12 ${time}`, ...parts(index) });
  });
}

const codes = (assignment: PhotoAssignment) => assignment.reasons.map(({ code }) => code);

test('the 64 sample photos find their plots by name, in any order of dropping', () => {
  const photos = sampleTrial.ratingDates.flatMap((date) =>
    plots.map((plot) => photo(`${date}_${plot}`, { captureTime: `${date.replaceAll('-', ':')} 09:00:00` })),
  );
  const dropped = shuffled(photos, repeatableRandom(4));
  const found = assignPhotos(dropped, plan);
  expect(found).toHaveLength(64);
  for (const { photo: name, plot, ratingDate, certainty, reasons } of found) {
    expect([`${ratingDate}_${plot}`, certainty]).toEqual([name, 'certain']);
    expect(reasons[0]).toEqual({ code: 'by-file-name', pattern: '{date}_{plot}' });
  }
});

test('a walk there and back without a label is put by its order', () => {
  const found = assignPhotos(walkOf(16), plan);
  expect(found.map(({ plot }) => plot)).toEqual(plots);
  expect(new Set(found.map(({ certainty }) => certainty))).toEqual(new Set(['certain']));
  expect(found[4]!.reasons[0]).toEqual({ code: 'by-walking-order', position: 5, of: 16 });
  const notTrusted = assignPhotos(walkOf(16), { ...plan, orderTrusted: false });
  expect(notTrusted.map(({ plot }) => plot)).toEqual(plots);
  expect(new Set(notTrusted.map(({ certainty }) => certainty))).toEqual(new Set(['doubtful']));
});

test('what labels, names and times cannot show is put as if all had gone well, and the reason names the order', () => {
  // Plots 102 and 103 photographed in the other's turn, no label anywhere: the times are those of a good walk.
  const found = assignPhotos(walkOf(16), plan);
  expect(codes(found[1]!)).toContain('by-walking-order');
  expect(assignmentReasonText(found[1]!.reasons[0]!)).toContain(
    'Order alone cannot see plots photographed in the other',
  );
});

test('one photo short, the walk is held from where it cannot be known', () => {
  const found = assignPhotos(walkOf(15), plan);
  expect(found.filter(({ certainty }) => certainty === 'certain')).toEqual([]);
  expect(found.some((one) => codes(one).includes('order-unclear'))).toBe(true);
});

test('labels in a walk one photo short: only what lies between differing labels is held', () => {
  // plot index 9 left out; labels on all plots but indexes 8 and 10
  const indexes = [0, 1, 2, 3, 4, 5, 6, 7, 8, 10, 11, 12, 13, 14, 15];
  const photos = walkOf(15, (at) => ({
    labelTexts: [8, 10].includes(indexes[at]!) ? [] : [label(plots[indexes[at]!]!)],
  }));
  const found = assignPhotos(photos, plan);
  found.forEach((one, at) => {
    const known = ![8, 10].includes(indexes[at]!);
    expect([one.photo, one.certainty]).toEqual([one.photo, known ? 'certain' : 'doubtful']);
    if (known) expect(one.plot).toBe(plots[indexes[at]!]);
  });
});

test('a neighbour’s label alone in the photo is held, with the likelier plot', () => {
  const photos = walkOf(16, (at) => ({ labelTexts: [label(plots[at === 6 ? 7 : at]!)] }));
  const [wrong] = assignPhotos(photos, plan).filter(({ certainty }) => certainty !== 'certain');
  expect(wrong).toMatchObject({ photo: 'IMG_706', certainty: 'doubtful' });
  expect(wrong!.reasons).toContainEqual({ code: 'order-says-otherwise', said: plots[7], likelier: plots[6] });
});

test('two labels in one photo, a label against the name, a foreign, a damaged label: all held, each with its reason', () => {
  const [two, against, foreign, damaged] = assignPhotos(
    [
      photo('a', { labelTexts: [label('101'), label('102')] }),
      photo('2027-04-12_103', { labelTexts: [label('104')] }),
      photo('c', { labelTexts: [label('101', 'ZZ9XT4')] }),
      photo('d', { labelTexts: [`${label('101').slice(0, -1)}?`, 'https://example.org'] }),
    ],
    { ...plan, dateOfUndated: '2027-04-12' },
  );
  expect([two, against, foreign, damaged].map((one) => one!.certainty)).toEqual(Array(4).fill('doubtful'));
  expect(codes(two!)).toContain('several-labels');
  expect(against!.reasons).toContainEqual({ code: 'label-against-file-name', label: '104', fileName: '103' });
  expect(foreign!.reasons).toContainEqual({
    code: 'label-trouble',
    problem: { code: 'label-of-other-trial', trial: 'ZZ9XT4', plot: '101' },
  });
  expect(foreign!.plot).toBeNull();
  expect(codes(damaged!)).toContain('label-trouble');
});

test('dates: from the name, from the camera, held when they differ, unknown or no rating date', () => {
  const at = (captureTime: string | null, fileName = 'x.jpg') =>
    assignPhotos([photo('x', { captureTime, fileName, labelTexts: [label('101')] })], plan)[0]!;
  expect(at('2027:05:17 23:59:59')).toMatchObject({ certainty: 'certain', ratingDate: '2027-05-17' });
  expect(at('2027:05:17 00:00:00')).toMatchObject({ certainty: 'certain', ratingDate: '2027-05-17' });
  expect(at(null, '2027-06-21_101.jpg')).toMatchObject({ certainty: 'certain', ratingDate: '2027-06-21' });
  expect(at('2027:05:17 10:00:00', '2027-06-21_101.jpg').reasons).toContainEqual({
    code: 'dates-differ',
    dates: ['2027-06-21', '2027-05-17'],
  });
  expect(at('2027:05:18 10:00:00')).toMatchObject({ certainty: 'doubtful', plot: '101', ratingDate: null });
  expect(at('2027:05:18 10:00:00').reasons).toContainEqual({
    code: 'no-rating-on-day',
    date: '2027-05-18',
    nearest: '2027-05-17',
  });
  expect(codes(at(null))).toContain('date-unknown');
  // a camera clock that was never set, a wrong century, blanks
  for (const written of ['0000:00:00 00:00:00', '1827:05:17 10:00:00', '    :  :     :  :  ']) {
    expect(at(written)).toMatchObject({ certainty: 'doubtful', plot: '101', ratingDate: null });
    expect(at(written).reasons).toContainEqual({ code: 'capture-time-unreadable', written });
  }
});

test('the same file twice, also under another name, is put once', () => {
  const photos = [
    photo('copy of p', { sha256: 'h', labelTexts: [label('101')], captureTime: '2027:04:12 09:00:00' }),
    photo('p', { sha256: 'h', labelTexts: [label('101')], captureTime: '2027:04:12 09:00:00' }),
  ];
  const found = assignPhotos(photos, plan);
  expect(found.map(({ certainty }) => certainty)).toEqual(['double', 'certain']);
  expect(found[0]!.reasons).toEqual([{ code: 'same-file', as: 'p' }]);
  const there = { photo: 'old', plot: '101', place: 1, ratingDate: '2027-04-12', sha256: 'h' };
  const again = assignPhotos(photos, { ...plan, alreadyThere: [there] });
  expect(again.map(({ certainty, plot }) => [certainty, plot])).toEqual([
    ['double', '101'],
    ['double', '101'],
  ]);
});

test('one file under the names of two plots: both are doubtful, since one of the names is wrong', () => {
  const captureTime = '2027:04:12 09:00:00';
  const photos = ['2027-04-12_101', '2027-04-12_102'].map((name) =>
    photo(name, { sha256: 'h', captureTime }),
  );
  const found = assignPhotos(photos, plan);
  expect(found.map(({ certainty }) => certainty)).toEqual(['doubtful', 'doubtful']);
  expect(found.map(({ reasons }) => reasons.at(-1))).toEqual([
    { code: 'same-file', as: '2027-04-12_102' },
    { code: 'same-file', as: '2027-04-12_101' },
  ]);
  const there = { photo: 'old', plot: '101', place: 1, ratingDate: '2027-04-12', sha256: 'h' };
  const later = assignPhotos(photos, { ...plan, alreadyThere: [there] });
  expect(later.map(({ certainty }) => certainty)).toEqual(['double', 'doubtful']);
});

test('two photos of a plot and date are both held for a choice, also when one was there before', () => {
  const photos = walkOf(17, (at) => ({ labelTexts: [label(plots[Math.min(at, 15)]!)] }));
  const found = assignPhotos(photos, plan);
  expect(found.slice(0, 15).every(({ certainty }) => certainty === 'certain')).toBe(true);
  expect(found.slice(15).map(({ certainty }) => certainty)).toEqual(['double', 'double']);
  expect(found[16]!.reasons).toContainEqual({ code: 'same-place-and-date', as: ['IMG_715'] });
  const there = { photo: 'old', plot: '101', place: 1, ratingDate: '2027-04-12', sha256: null };
  expect(assignPhotos(photos.slice(0, 3), { ...plan, alreadyThere: [there] })[0]).toMatchObject({
    certainty: 'double',
  });
});

test('an hour wrong, a clock set back on the way, offsets that change: the order stays', () => {
  const expected = plots.map((plot) => [plot, 'certain']);
  const put = (photos: readonly PhotoToAssign[]) =>
    assignPhotos(photos, plan).map(({ plot, certainty }) => [plot, certainty]);
  const hour = (captureTime: string, by: number) =>
    captureTime.replace(/ (\d\d):/, (_, hours: string) => ` ${String(Number(hours) + by).padStart(2, '0')}:`);
  const shifted = (by: (index: number) => number, offset: (index: number) => number | null) =>
    walkOf(16).map((one, index) => ({
      ...one,
      captureTime: hour(one.captureTime!, by(index)),
      utcOffsetMinutes: offset(index),
    }));
  expect(
    put(
      shifted(
        () => 1,
        () => null,
      ),
    ),
  ).toEqual(expected);
  // daylight-saving time ends after the seventh photo; the camera's numbers go on
  expect(
    put(
      shifted(
        (index) => (index < 7 ? 0 : -1),
        () => null,
      ),
    ),
  ).toEqual(expected);
  // it begins; the camera notes its offset
  const begins = shifted(
    (index) => (index < 7 ? 0 : 1),
    (index) => (index < 7 ? 600 : 660),
  );
  expect(put(begins)).toEqual(expected);
});

test('two phones at once with names and clocks of their own are two walks', () => {
  const half = (device: string, first: number) =>
    walkOf(8, (at) => ({ device, labelTexts: at % 3 === 0 ? [label(plots[first + at]!)] : [] })).map(
      (one) => ({
        ...one,
        photo: `${device} ${one.photo}`,
      }),
    );
  const found = assignPhotos(shuffled([...half('A', 0), ...half('B', 8)], repeatableRandom(2)), plan);
  for (const { photo: name, plot, certainty } of found) {
    const index = Number(name.slice(-3)) - 700 + (name.startsWith('A') ? 0 : 8);
    if (certainty !== 'doubtful') expect([name, plot]).toEqual([name, plots[index]]);
  }
  expect(found.filter(({ certainty }) => certainty === 'certain').length).toBeGreaterThanOrEqual(12);
});

test('two phones of one make at once, told apart by their numbers: nothing is certain and wrong', () => {
  const half = (first: number, numbers: number, labelled: boolean) =>
    walkOf(8, (at) => ({
      fileName: `IMG_${numbers + at}.JPG`,
      labelTexts: labelled && at % 3 === 0 ? [label(plots[first + at]!)] : [],
    })).map((one, at) => ({ ...one, photo: plots[first + at]! }));
  for (const labelled of [true, false]) {
    const found = assignPhotos([...half(0, 700, labelled), ...half(8, 4100, labelled)], plan);
    for (const { photo: truth, plot, certainty } of found) {
      if (certainty !== 'doubtful') expect(plot).toBe(truth);
    }
  }
});

test('two cameras taken for one: numbers and times contradict each other, so the order says nothing', () => {
  const mixed = walkOf(16).map((one, index) => ({ ...one, fileName: `IMG_${(index * 7) % 16}.jpg` }));
  const found = assignPhotos(mixed, plan);
  expect(new Set(found.map(({ certainty }) => certainty))).toEqual(new Set(['doubtful']));
  expect(codes(found[0]!)).toContain('names-against-times');
});

test('several places: two photos a plot in walking order', () => {
  const found = assignPhotos(walkOf(32), { ...plan, placesPerPlot: 2 });
  expect(found.map(({ plot, place }) => `${plot}/${place}`)).toEqual(
    plots.flatMap((plot) => [`${plot}/1`, `${plot}/2`]),
  );
  expect(found.filter(({ certainty }) => certainty === 'certain').length).toBe(32);
});

test('no photos, no plots, an unusable pattern', () => {
  expect(assignPhotos([], plan)).toEqual([]);
  expect(() => assignPhotos([], { ...plan, walkingOrder: [] })).toThrow('the walking order is empty');
  expect(() => assignPhotos([], { ...plan, fileNamePatterns: ['{nonsense}'] })).toThrow(RangeError);
});

test('the answer does not depend on the order of dropping', () => {
  const batch = messyBatch(1002);
  const byName = (found: readonly PhotoAssignment[]) => new Map(found.map((one) => [one.photo, one]));
  const once = byName(assignPhotos(batch, BATCH_PLAN));
  const again = byName(assignPhotos(shuffled(batch, repeatableRandom(9)), BATCH_PLAN));
  for (const [name, { plot, ratingDate, certainty }] of once) {
    expect([name, again.get(name)]).toMatchObject([name, { plot, ratingDate, certainty }]);
  }
});

test('every reason is a sentence', () => {
  const all = [1003, 1004].flatMap((seed) =>
    assignPhotos(messyBatch(seed), BATCH_PLAN).flatMap(({ reasons }) => reasons),
  );
  expect(new Set(all.map(({ code }) => code)).size).toBeGreaterThan(8);
  for (const reason of all) {
    expect(assignmentReasonText(reason)).toMatch(/^[A-Z].*\.$/);
    expect(assignmentReasonText(reason)).not.toMatch(/undefined|null|NaN/);
  }
});

test('the board of plots by dates: there, missing, doubtful, double, and what has no cell', () => {
  const photos = walkOf(16, (at) => ({ labelTexts: [label(plots[at]!)] })).slice(0, 14);
  const found = [...assignPhotos(photos, plan), ...assignPhotos([photo('lost')], plan)];
  const { cells, unplaced } = photoBoard(found, plots, 1, plan.ratingDates);
  expect(cells).toHaveLength(64);
  const ofDate = cells.filter(({ ratingDate }) => ratingDate === '2027-04-12');
  expect(ofDate.map(({ state }) => state)).toEqual([...Array(14).fill('there'), 'missing', 'missing']);
  expect(unplaced).toEqual(['lost']);
  const one = { plot: '101', place: 1, ratingDate: '2027-04-12' };
  const state = (...certainties: readonly ('certain' | 'doubtful' | 'double')[]) =>
    photoBoard(
      certainties.map((certainty, index) => ({ ...one, photo: `${index}`, certainty })),
      ['101'],
      1,
      ['2027-04-12'],
    ).cells[0]!.state;
  expect([state('certain'), state('doubtful'), state('double'), state('certain', 'doubtful')]).toEqual([
    'there',
    'doubtful',
    'double',
    'double',
  ]);
});
