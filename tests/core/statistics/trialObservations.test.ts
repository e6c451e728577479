import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { writeComparison } from '../../../src/core/exchange/comparison.ts';
import { type CoverRow, writeCoverTable } from '../../../src/core/exchange/coverTable.ts';
import { readDeclaredAnalysis, storedDeclaration } from '../../../src/core/exchange/declaredAnalysis.ts';
import { readObservationTable, tableNotes } from '../../../src/core/exchange/observationTable.ts';
import { comparisonTrialOf } from '../../../src/core/exchange/trialPlanComparison.ts';
import { compareTrial, roleNotes } from '../../../src/core/statistics/compareTrial.ts';
import { ComparisonDesk } from '../../../src/core/statistics/comparisonDesk.ts';
import {
  betterOf,
  comparedVariables,
  type DeclaredAnalysis,
  declarationDrift,
} from '../../../src/core/statistics/declaredAnalysis.ts';
import { declaredOptions, withoutExcluded } from '../../../src/core/statistics/declaredComparison.ts';
import { treatmentCodes } from '../../../src/core/statistics/treatmentCodes.ts';
import { type ComparedPhoto, trialObservations } from '../../../src/core/statistics/trialObservations.ts';
import { noteText } from '../../../src/core/text/statistics.ts';
import { applicationsBy } from '../../../src/core/trial/applicationsBy.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import type { TrialPlan } from '../../../src/core/trial/trialPlan.ts';
import { doneOn, plannedApplication, samplePlan } from '../trial/samplePlan.ts';

interface SamplePhoto {
  readonly plot: string;
  readonly ratingDate: string;
  readonly coverPercentOfGround: Readonly<Record<string, number>>;
}

const { photos: sample } = JSON.parse(
  readFileSync(new URL('../../../sample-images/photos.json', import.meta.url), 'utf8'),
) as { readonly photos: readonly SamplePhoto[] };

/** The sample photos with figures that read their true cover, a fraction with all its digits. */
const photos: readonly ComparedPhoto[] = sample.map(({ plot, ratingDate, coverPercentOfGround }, index) => ({
  plot,
  ratingDate,
  figures: {
    automatic: {
      cover: Object.entries(coverPercentOfGround).map(([classId, percent]) => ({
        classId,
        coverFraction: percent / 100 + index * 1e-7,
      })),
      flags: index === 3 ? ['no-second-kind'] : [],
    },
  },
}));

const weeds = { kind: 'class', classId: 'weedy-grass' } as const;

const declaration = (plan: TrialPlan, more: Partial<DeclaredAnalysis> = {}): DeclaredAnalysis => ({
  variable: weeds,
  method: 'automatic',
  when: { kind: 'date', ratingDate: '2027-07-26' },
  transform: 'none',
  alpha: 0.05,
  controlThreshold: 20,
  minimumPressure: 5,
  classes: plan.trial.classes,
  gapRule: plan.trial.gapRule,
  exclusions: plan.exclusions,
  ...more,
});

const HEAD = { name: 'cover_percent', unit: '%', scale: [0, 100], better: 'lower' } as const;

test('the screen and the command line make the same file of the sample trial, to the last digit', () => {
  const plan = samplePlan();
  const declared = declaration(plan);

  // the command line's way: a cover table, read again
  const rows = photos.flatMap(({ plot, ratingDate, figures }, index): CoverRow[] =>
    figures.automatic!.cover.map(({ classId, coverFraction }) => ({
      photo: `${index}.jpg`,
      plot,
      quadrat: null,
      block: null,
      treatment: null,
      ratingDate,
      classId,
      pixels: null,
      coverPercent: 100 * coverFraction,
      coverLow: null,
      coverHigh: null,
      method: 'automatic',
      model: null,
      flags: figures.automatic!.flags,
    })),
  );
  const trial = comparisonTrialOf(plan);
  const read = readObservationTable(writeCoverTable(rows), {
    plots: trial.plots,
    classes: trial.classes,
    classId: 'weedy-grass',
  });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const comparison = compareTrial(read.table.observations, {
    design: trial.design!,
    control: trial.control,
    alpha: 0.05,
    transform: 'none',
    primary: '2027-07-26',
    better: 'lower',
    percentControl: { minimumPressure: 5 },
    firstApplication: trial.firstApplication,
    lengthOfControl: { threshold: 20, countedFrom: trial.sowingDate! },
  });
  const byCommand = writeComparison(comparison, HEAD, tableNotes(read.table), noteText, 'caution');

  // the screen's way: photos, and the comparison piece by piece as its worker makes it
  const found = trialObservations({ plan, photos, scores: [] }, weeds, 'automatic');
  const used = withoutExcluded(found.observations, weeds, declared);
  const options = declaredOptions(plan, declared, weeds, used);
  const desk = new ComparisonDesk();
  const dates = desk.put('weeds', used, options);
  // asked for in the screen's order: what decides first, the others from the newest
  const byDate = new Map([...dates].reverse().map((date) => [date, desk.onDate('weeds', date)]));
  const byScreen = writeComparison(
    {
      analyses: dates.map((date) => byDate.get(date)!),
      overDates: [desk.overDates('weeds')!],
      notes: roleNotes(true, options.primary ?? null),
    },
    HEAD,
    tableNotes(found),
    noteText,
    'caution',
  );
  expect(byScreen).toBe(byCommand);
  expect(JSON.parse(byScreen).analyses).toHaveLength(4);
});

describe('observations of a trial', () => {
  const plan = samplePlan();
  const data = { plan, photos, scores: [] };

  test('frames of a plot are averaged, photos elsewhere and without the method are counted', () => {
    const more = [
      ...photos,
      {
        ...photos[0]!,
        figures: { automatic: { cover: [{ classId: 'weedy-grass', coverFraction: 1 }], flags: [] } },
      },
      { ...photos[0]!, plot: '999' },
      { ...photos[0]!, figures: { points: photos[0]!.figures.automatic! } },
    ];
    const found = trialObservations({ ...data, photos: more }, weeds, 'automatic');
    expect(found.observations).toHaveLength(64);
    expect(found.subsamples).toEqual({ fewest: 1, most: 2 });
    expect(found).toMatchObject({ withoutPlot: 1, withoutMethod: 1 });
    const own = found.observations.find(
      ({ plot, ratingDate }) => plot === photos[0]!.plot && ratingDate === photos[0]!.ratingDate,
    )!;
    // true cover of plot 101 on the first date, 6.47 %, and 100 %
    expect(own.value).toBeCloseTo((6.47 + 100) / 2, 9);
  });

  test('a reporting group adds its classes up', () => {
    const classes = DEFAULT_CLASSES.map((one) => ({
      ...one,
      reportingGroup: one.id === 'bare-ground' ? 'bare-ground' : 'green',
    }));
    const grouped = { ...plan, trial: { ...plan.trial, classes } };
    expect(comparedVariables(grouped)).toContainEqual({ kind: 'group', reportingGroup: 'green' });
    const variable = { kind: 'group', reportingGroup: 'green' } as const;
    const found = trialObservations({ ...data, plan: grouped }, variable, 'automatic');
    // 100 - 16.44, bare ground of plot 101 on the first date
    expect(found.observations[0]!.value).toBeCloseTo(83.56, 2);
    // turf and weeds together: nobody said which way is better
    expect(betterOf(variable, classes, [])).toBeNull();
  });

  test('scores of several raters are averaged; one that could not be given is no 0', () => {
    const score = { variable: 'turf-quality', plot: '101', ratingDate: '2027-05-17' };
    const found = trialObservations(
      {
        ...data,
        scores: [
          { ...score, rater: 'K', value: 6 },
          { ...score, rater: 'L', value: 7 },
          { ...score, plot: '102', rater: 'K', value: null },
        ],
      },
      { kind: 'rated', variableId: 'turf-quality' },
      null,
    );
    expect(found.observations.map(({ plot, value }) => [plot, value])).toEqual([['101', 6.5]]);
    expect(found.emptyValues).toBe(1);
  });

  test('colours of a date are balanced all or none', () => {
    const withColour = (cards: number) =>
      photos.slice(0, 16).map((photo, index) => ({
        ...photo,
        figures: {
          automatic: {
            ...photo.figures.automatic!,
            turfColour: {
              classId: 'ryegrass',
              pixels: 9,
              darkGreenColourIndex: 0.5,
              balancedIndex: index < cards ? 0.6 : null,
            },
          },
        },
      }));
    const values = (cards: number) => {
      const found = trialObservations({ ...data, photos: withColour(cards) }, { kind: 'colour' }, null);
      return [found.balanced, [...new Set(found.observations.map(({ value }) => value))]];
    };
    expect(values(16)).toEqual([16, [0.6]]);
    expect(values(15)).toEqual([15, [0.5]]);
  });

  test('an untreated control beside the trial takes no part', () => {
    const beside = {
      ...plan,
      treatments: plan.treatments.map((one) =>
        one.number === 1 ? { ...one, untreatedControl: 'adjacent' as const } : one,
      ),
    };
    const found = trialObservations({ ...data, plan: beside }, weeds, 'automatic');
    expect(found.observations).toHaveLength(48);
    expect(found.adjacent).toHaveLength(16);
    const declared = declaration(beside);
    expect(declaredOptions(beside, declared, weeds, found.observations).control).toBeNull();
  });

  test('exclusions keep a plot out on a date, of one variable or all', () => {
    const exclusion = { id: 'X1', plot: '101', ratingDate: '2027-05-17', reason: 'flooded', by: 'K' };
    const { observations } = trialObservations(data, weeds, 'automatic');
    const left = (variable: string | null) =>
      withoutExcluded(observations, weeds, {
        classes: DEFAULT_CLASSES,
        exclusions: [{ ...exclusion, variable }],
      }).length;
    expect([left(null), left('weedy-grass'), left('ryegrass')]).toEqual([63, 63, 64]);
  });
});

describe('a declaration', () => {
  test('is read as it was stored; what it does not know is refused with its field', () => {
    const declared = declaration(samplePlan());
    expect(readDeclaredAnalysis(JSON.parse(JSON.stringify(storedDeclaration(declared))))).toEqual({
      ok: true,
      value: declared,
    });
    const faulty = { ...storedDeclaration(declared), alpha: 2 };
    expect(readDeclaredAnalysis(faulty)).toMatchObject({
      ok: false,
      problems: [{ field: 'alpha', value: 2 }],
    });
  });

  test('says what of the plan has changed since', () => {
    const plan = samplePlan();
    const declared = declaration(plan);
    expect(declarationDrift(declared, plan)).toEqual([]);
    const changed: TrialPlan = {
      ...plan,
      trial: {
        ...plan.trial,
        classes: plan.trial.classes.filter(({ id }) => id !== 'weedy-grass'),
        gapRule: { kind: 'small-patches-to-surroundings', smallerThanMm: 5 },
      },
      exclusions: [{ id: 'X1', plot: '101', ratingDate: null, variable: null, reason: 'flooded', by: 'K' }],
    };
    expect(declarationDrift(declared, changed)).toEqual([
      'classes',
      'gap-rule',
      'exclusions',
      'variable-gone',
    ]);
  });
});

test('applications done by a day; those left out do not count', () => {
  const plan = {
    treatments: samplePlan().treatments,
    applications: [
      plannedApplication({ id: 'A1', treatments: [2, 4], progress: doneOn('2027-02-24') }),
      plannedApplication({ id: 'A2', treatments: [4], progress: doneOn('2027-04-01') }),
      plannedApplication({ id: 'A3', treatments: [4] }),
      plannedApplication({ id: 'A4', treatments: [4], progress: { state: 'left-out', why: 'rain' } }),
    ],
  };
  expect([...applicationsBy(plan, '2027-03-31')]).toEqual([
    [1, { done: 0, total: 0 }],
    [2, { done: 1, total: 1 }],
    [3, { done: 0, total: 0 }],
    [4, { done: 1, total: 3 }],
  ]);
  expect(applicationsBy(plan, '2027-04-01').get(4)).toEqual({ done: 2, total: 3 });
});

test('codes of treatments are all different, the same on every visit, and other ones in another trial', () => {
  const numbers = Array.from({ length: 200 }, (_, index) => index + 1);
  const codes = treatmentCodes(numbers, 'trial 1');
  expect(new Set(codes.values()).size).toBe(200);
  expect(treatmentCodes(numbers, 'trial 1')).toEqual(codes);
  expect(treatmentCodes(numbers, 'trial 2')).not.toEqual(codes);
});
