import fc from 'fast-check';
import { expect, test } from 'vitest';
import { costAgainstCover } from '../../../src/app/charts/CostAgainstCover.tsx';
import { coverOverTime } from '../../../src/app/charts/CoverOverTime.tsx';
import type { TreatmentMean } from '../../../src/app/charts/chartTypes.ts';
import type { FigureContent } from '../../../src/app/charts/drawing.ts';
import { methodDifferences } from '../../../src/app/charts/MethodDifferences.tsx';
import { plotLines } from '../../../src/app/charts/PlotLines.tsx';
import { plotValueMap } from '../../../src/app/charts/PlotValueMap.tsx';
import { normalQuantiles, residualsAgainstFitted } from '../../../src/app/charts/Residuals.tsx';
import { treatmentBars } from '../../../src/app/charts/TreatmentBars.tsx';
import { limitsOfAgreement } from '../../../src/core/cover/methodAgreement.ts';
import { addDays } from '../../../src/core/trial/calendarDay.ts';
import { drawn } from './markup.ts';
import { bars, costs, overTime, QUANTITY, WORDS } from './sampleFigures.ts';

/** From a share too small to see to sums far beyond any cover, below zero, zero itself, and nothing. */
const amount = fc.oneof(
  fc.constantFrom(0, 100, -0.4, 5e-324, 1e-12, 1e7),
  fc.double({ min: -50, max: 150, noNaN: true }),
);
const maybe = fc.option(amount, { freq: 3 });
const label = fc.string({ unit: 'grapheme', maxLength: 90 });
const day = fc.integer({ min: 0, max: 400 }).map((days) => addDays('2027-01-01', days));
const days = fc.uniqueArray(day, { maxLength: 10 }).map((list) => [...list].sort());

const means = fc.uniqueArray(
  fc.record({
    treatment: fc.integer({ min: 1, max: 40 }).map(String),
    label,
    mean: maybe,
    standardError: maybe.map((error) => (error === null ? null : Math.abs(error))),
    low: maybe,
    high: maybe,
    n: fc.integer({ min: 0, max: 9 }),
    letters: fc.option(fc.constantFrom('a', 'ab', 'abcdefgh', '')),
  }),
  { selector: ({ treatment }) => treatment, maxLength: 9 },
);

const size = fc.record({
  widthPx: fc.integer({ min: 240, max: 1600 }),
  heightPx: fc.option(fc.integer({ min: 200, max: 900 })),
  textPx: fc.constantFrom(11.5, 12, 14.5),
});

/** Every attribute that is a number is finite, no extent is negative, and the drawing has a height. */
function expectSound(
  content: FigureContent,
  at: { widthPx: number; heightPx: number | null; textPx: number },
) {
  const drawing = content.draw(at);
  expect(drawing.heightPx).toBeGreaterThan(0);
  expect(Number.isFinite(drawing.heightPx)).toBe(true);
  for (const { x, y, says } of drawing.marks) {
    expect(Number.isFinite(x) && Number.isFinite(y)).toBe(true);
    expect(says).not.toMatch(/NaN|undefined|Infinity/);
  }
  // words between the tags may be anything; attributes may not
  for (const [tag] of drawn(content, at).matchAll(/<[^>]*>/g)) {
    if (/ (?:data-treatment|data-plot)=/.test(tag)) continue;
    expect(tag).not.toMatch(/NaN|undefined|Infinity|null/);
    expect(tag).not.toMatch(/ (?:width|height|r|stroke-width)="-/);
  }
  for (const row of content.table.rows) {
    expect(row).toHaveLength(content.table.columns.length);
    for (const cell of row) expect(typeof cell).toBe('string');
  }
}

const treatmentsOf = (list: readonly TreatmentMean[]) =>
  list.map(({ treatment, label }) => ({ treatment, label }));
const RUNS = { numRuns: 12, seed: 20270412 };

test('means by treatment', () => {
  fc.assert(
    fc.property(
      means,
      size,
      fc.constantFrom('standard-error' as const, 'interval' as const),
      (list, at, spread) => {
        expectSound(treatmentBars({ ...bars(list), spread }), at);
        expectSound(
          costAgainstCover({ ...costs(list.map((one) => ({ ...one, costPerHectare: one.low }))), spread }),
          at,
        );
      },
    ),
    RUNS,
  );
});

test('means over time, with applications and weather', () => {
  fc.assert(
    fc.property(
      means,
      days,
      days,
      size,
      fc.array(maybe, { maxLength: 5 }),
      (list, dates, wet, at, shuffle) => {
        const content = coverOverTime({
          ...overTime(
            dates.map((ratingDate, i) => ({
              ratingDate,
              means: list.map((one, k) => ({ ...one, mean: shuffle[(i + k) % 5] ?? one.mean })),
            })),
          ),
          treatments: treatmentsOf(list),
          applications: wet.map((date, i) => ({
            treatment: String(i % 5),
            date,
            name: 'coded product',
            done: i % 2 === 0,
          })),
          weather: wet.map((day, i) => {
            const value = shuffle[i % 5] ?? null;
            return { day, airC: value, airLeastC: null, airMostC: null, soilC: value, rainMm: value };
          }),
        });
        expectSound(content, at);
      },
    ),
    RUNS,
  );
});

test('plots on the map and over time', () => {
  const plots = fc.uniqueArray(
    fc.record({
      place: fc.integer({ min: 0, max: 399 }),
      treatment: fc.integer({ min: 1, max: 9 }).map(String),
      value: maybe,
    }),
    { selector: ({ place }) => place, maxLength: 16 },
  );
  fc.assert(
    fc.property(plots, days, size, (list, ratingDates, at) => {
      expectSound(
        plotValueMap({
          ...WORDS,
          quantity: QUANTITY,
          ratingDate: '2027-06-21',
          plots: list.map(({ place, treatment, value }) => ({
            plot: String(place),
            treatment,
            block: null,
            row: 1 + (place % 20),
            column: 1 + Math.floor(place / 20),
            value,
          })),
        }),
        at,
      );
      const treatments = [...new Set(list.map(({ treatment }) => treatment))];
      expectSound(
        plotLines({
          ...WORDS,
          quantity: QUANTITY,
          ratingDates,
          treatments: treatments.map((treatment) => ({
            treatment,
            label: treatment,
            means: ratingDates.map(() => list[0]!.value),
            plots: list
              .filter((one) => one.treatment === treatment)
              .map(({ place, value }) => ({
                plot: String(place),
                values: ratingDates.map((_, i) => (i % 3 === 1 ? null : value)),
              })),
          })),
        }),
        at,
      );
    }),
    RUNS,
  );
});

test('points in the plane: residuals and two methods', () => {
  const pair = fc.tuple(amount, amount);
  fc.assert(
    fc.property(fc.array(pair, { maxLength: 30 }), size, fc.option(pair), (list, at, line) => {
      const props = {
        ...WORDS,
        scaleName: '%',
        treatments: [{ treatment: '1', label: '1' }],
        residuals: list.map(([fitted, residual], i) => ({
          plot: String(i),
          treatment: '1',
          fitted,
          residual,
          normalQuantile: i / 10,
        })),
        named: ['0', '3', 'gone'],
      };
      expectSound(residualsAgainstFitted(props), at);
      expectSound(normalQuantiles({ ...props, line: line && { intercept: line[0], slope: line[1] } }), at);
      expectSound(
        methodDifferences({
          ...WORDS,
          methods: ['Automatic', 'Points'],
          pairs: list.map(([a, b], i) => ({ label: String(i), mean: (a + b) / 2, difference: a - b })),
          agreement: limitsOfAgreement(
            list.map(([a]) => a),
            list.map(([, b]) => b),
          ),
        }),
        at,
      );
    }),
    RUNS,
  );
});
