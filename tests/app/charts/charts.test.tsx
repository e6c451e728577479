import { renderToStaticMarkup } from 'react-dom/server';
import { expect, test } from 'vitest';
import { costAgainstCover } from '../../../src/app/charts/CostAgainstCover.tsx';
import { CoverOverTime, coverOverTime } from '../../../src/app/charts/CoverOverTime.tsx';
import { methodDifferences } from '../../../src/app/charts/MethodDifferences.tsx';
import { plotLines } from '../../../src/app/charts/PlotLines.tsx';
import { plotValueMap } from '../../../src/app/charts/PlotValueMap.tsx';
import { normalQuantiles } from '../../../src/app/charts/Residuals.tsx';
import { TreatmentBars, treatmentBars } from '../../../src/app/charts/TreatmentBars.tsx';
import { limitsOfAgreement } from '../../../src/core/cover/methodAgreement.ts';
import { drawn, numbersIn, parts } from './markup.ts';
import { bars, costs, meanOf, overTime, QUANTITY, TREATMENTS, WORDS } from './sampleFigures.ts';

const threeDates = [
  { ratingDate: '2027-04-12', means: [meanOf(0, 10), meanOf(1, 4), meanOf(2, 8)] },
  { ratingDate: '2027-05-17', means: [meanOf(0, 20), meanOf(1, null), meanOf(2, 12)] },
  { ratingDate: '2027-06-21', means: [meanOf(0, 40), meanOf(1, 30), meanOf(2, 16)] },
];

test('bars are as long as their means, and error bars end at mean -+ standard error', () => {
  const markup = drawn(treatmentBars(bars([meanOf(0, 40, 5), meanOf(1, 20, 2.5), meanOf(2, 0, 1)])));
  const [first, second, third] = parts(markup, 'bar').map(({ x, width }) => ({
    x: Number(x),
    width: Number(width),
  }));
  const perPercent = first!.width / 40;
  expect(second!.width).toBeCloseTo(20 * perPercent, 1);
  expect(third!.width).toBe(0);
  const zero = second!.x;
  const [low, , high] = levelEnds(parts(markup, 'error-bar')[0]!.d!);
  expect(low).toBeCloseTo(zero + 35 * perPercent, 1);
  expect(high).toBeCloseTo(zero + 45 * perPercent, 1);
});

/** x of the lower cap, y, x of the upper end of "Mlow y v10 Mlow y Hhigh ...". */
function levelEnds(path: string): [number, number, number] {
  const [low, y, , , , high] = numbersIn(path.replaceAll('v', ' v'));
  return [low!, y!, high!];
}

test('with spread "interval" bars end at the interval', () => {
  const props = { ...bars([meanOf(0, 40, 5), meanOf(1, 20, 2.5)]), spread: 'interval' as const };
  const markup = drawn(treatmentBars(props));
  const { x, width } = parts(markup, 'bar')[0]!;
  const perPercent = Number(width) / 40;
  const [low, , high] = levelEnds(parts(markup, 'error-bar')[0]!.d!);
  expect(low).toBeCloseTo(Number(x) + 30 * perPercent, 1);
  expect(high).toBeCloseTo(Number(x) + 50 * perPercent, 1);
  expect(treatmentBars(props).caption.join(' ')).toContain('95 % interval of the mean');
});

test('letters stand in the order of the plan, and the caption says what they mean', () => {
  const content = treatmentBars(bars([meanOf(0, 40), meanOf(1, 20), meanOf(2, 10)]));
  expect([...drawn(content).matchAll(/data-part="letters">(\w+)</g)].map((match) => match[1])).toEqual([
    'a',
    'b',
    'c',
  ]);
  expect(content.caption.join(' ')).toContain('were not shown to differ');
  expect(content.caption.join(' ')).not.toContain('did not differ');
});

test('a mean over time is drawn at its date and value, its bar from mean - se to mean + se', () => {
  const content = coverOverTime(overTime(threeDates));
  const { marks } = content.draw({ widthPx: 720, heightPx: null, textPx: 12 });
  const control = marks.filter(({ series }) => series === 0);
  // 12 April to 17 May is 35 days, to 21 June 70
  expect(control[2]!.x - control[0]!.x).toBeCloseTo(2 * (control[1]!.x - control[0]!.x), 6);
  const perPercent = (control[0]!.y - control[2]!.y) / 30;
  const [, low, , , , high] = numbersIn(
    parts(drawn(content), 'error-bar')[0]!.d!.replaceAll('h', ' h').replaceAll('V', ' V'),
  );
  expect(low).toBeCloseTo(control[0]!.y + 2 * perPercent, 1);
  expect(high).toBeCloseTo(control[0]!.y - 2 * perPercent, 1);
});

test('a value that is missing is a gap in the line, no mark, and no zero', () => {
  const content = coverOverTime(overTime(threeDates));
  const [control, second] = parts(drawn(content), 'line').map(({ d }) => d!);
  expect(control!.match(/[ML]/g)!.join('')).toBe('MLL');
  expect(second!.match(/[ML]/g)!.join('')).toBe('MM');
  const { marks } = content.draw({ widthPx: 720, heightPx: null, textPx: 12 });
  expect(marks.filter(({ series }) => series === 1).map(({ step }) => step)).toEqual([0, 2]);
  expect(content.caption.join(' ')).toContain('Gaps are values that were not rated');
});

test('the table has the data of the picture', () => {
  const { table } = coverOverTime(overTime(threeDates));
  expect(table.columns.map(({ head }) => head)).toEqual([
    'Rating date',
    'Treatment',
    'Mean, %',
    'Standard error',
    'Lower bound',
    'Upper bound',
    'Plots',
    'Letters',
  ]);
  expect(table.rows).toHaveLength(9);
  expect(table.rows[0]).toEqual([
    '12 Apr 2027',
    '1 untreated control',
    '10.0',
    '2.0',
    '6.0',
    '14.0',
    '4',
    'a',
  ]);
  expect(table.rows[4]).toEqual([
    '17 May 2027',
    '2 coded product L-31 before sowing',
    'no value',
    'no value',
    'no value',
    'no value',
    '0',
    '',
  ]);
});

test('one plot a treatment: no bars, and it says why', () => {
  const single = [0, 1].map((place) => ({ ...meanOf(place, 30, null), n: 1 }));
  const content = treatmentBars(bars(single));
  expect(parts(drawn(content), 'error-bar')).toEqual([]);
  expect(content.caption.join(' ')).toContain('n = 1 plot a treatment');
});

test('a treatment without a standard error among others is named', () => {
  const content = treatmentBars(bars([meanOf(0, 30), meanOf(1, 20, null)]));
  expect(parts(drawn(content), 'error-bar')).toHaveLength(1);
  expect(content.caption.join(' ')).toContain('No error bar: 2 coded product L-31 before sowing');
});

test('applications stand on their day, open while planned, and are said', () => {
  const applications = [
    { treatment: '2', date: '2027-04-12', name: 'coded product L-31', done: true },
    { treatment: '3', date: '2027-06-21', name: 'growth regulator', done: false },
  ];
  const { marks } = coverOverTime({ ...overTime(threeDates), applications }).draw({
    widthPx: 720,
    heightPx: null,
    textPx: 12,
  });
  const [done, planned] = marks.filter(({ says }) => /done|planned/.test(says));
  expect(done!.says).toBe('2 coded product L-31 before sowing: coded product L-31, done 12 Apr 2027.');
  expect(planned!.says).toContain('planned for 21 Jun 2027');
  expect(planned!.x).toBeGreaterThan(done!.x);
});

test('a day without weather is a gap in its lines', () => {
  const weather = ['2027-04-12', '2027-04-13', '2027-04-15', '2027-04-16'].map((day, i) => ({
    day,
    airC: 10 + i,
    airLeastC: null,
    airMostC: null,
    soilC: null,
    rainMm: i === 1 ? 12 : 0,
  }));
  const markup = drawn(coverOverTime({ ...overTime(threeDates), weather }));
  expect(parts(markup, 'air')[0]!.d!.match(/[ML]/g)!.join('')).toBe('MLML');
});

test('the map puts row 1 at the bottom, prints each value and hatches what was not rated', () => {
  const content = plotValueMap({
    ...WORDS,
    quantity: QUANTITY,
    ratingDate: '2027-06-21',
    plots: [
      { plot: '101', treatment: '2', block: '1', row: 1, column: 1, value: 12.34 },
      { plot: '201', treatment: '1', block: '2', row: 2, column: 1, value: null },
    ],
  });
  const [near, far] = parts(drawn(content), 'plot');
  expect(Number(near!.y)).toBeGreaterThan(Number(far!.y));
  expect(drawn(content)).toContain('>12.3<');
  expect(content.caption.join(' ')).toContain('Hatched: not rated (1 plot).');
  expect(content.caption.join(' ')).toContain('n = 1 plot.');
});

test('shades of two dates can be compared when they share their bounds', () => {
  const at = (value: number) =>
    parts(
      drawn(
        plotValueMap({
          ...WORDS,
          quantity: QUANTITY,
          ratingDate: '2027-06-21',
          bounds: [0, 60],
          plots: [
            { plot: '101', treatment: '1', block: null, row: 1, column: 1, value: 30 },
            { plot: '102', treatment: '1', block: null, row: 1, column: 2, value },
          ],
        }),
      ),
      'plot',
    )[0]!.fill;
  expect(at(5)).toBe(at(60));
});

test('each plot has its line, each treatment its mean', () => {
  const content = plotLines({
    ...WORDS,
    quantity: QUANTITY,
    ratingDates: ['2027-04-12', '2027-05-17'],
    treatments: [
      {
        ...TREATMENTS[0]!,
        means: [10, 20],
        plots: [
          { plot: '101', values: [8, 18] },
          { plot: '203', values: [12, null] },
        ],
      },
      { ...TREATMENTS[1]!, means: [5, null], plots: [{ plot: '102', values: [5, null] }] },
    ],
  });
  const markup = drawn(content);
  expect(parts(markup, 'plot-line')).toHaveLength(3);
  expect(parts(markup, 'mean-line')).toHaveLength(2);
  expect(content.table.rows).toEqual([
    ['101', '1', '8.0', '18.0'],
    ['203', '1', '12.0', 'no value'],
    ['102', '2', '5.0', 'no value'],
  ]);
});

test('a programme without a price is not drawn, and named', () => {
  const content = costAgainstCover(
    costs([
      { ...meanOf(0, 40), costPerHectare: 0 },
      { ...meanOf(1, 20), costPerHectare: 310 },
      { ...meanOf(2, 10), costPerHectare: null },
    ]),
  );
  const { marks } = content.draw({ widthPx: 720, heightPx: null, textPx: 12 });
  expect(marks).toHaveLength(2);
  expect(marks[1]!.says).toBe(
    '2 coded product L-31 before sowing: cost 310 crowns; Weedy grass cover, 21 Jun 2027: 20.0 %, standard error 2.0, interval 16.0 to 24.0, 4 plots, letters b.',
  );
  expect(content.caption.join(' ')).toContain(
    'Not drawn, cost or cover unknown: 3 growth regulator programme',
  );
  expect(content.table.rows[2]![1]).toBe('no value');
});

test('limits of agreement lie where they were computed', () => {
  const [a, b] = [
    [10, 22, 35, 41],
    [12, 20, 30, 42],
  ];
  const agreement = limitsOfAgreement(a!, b!)!;
  const content = methodDifferences({
    ...WORDS,
    methods: ['Automatic', 'Points'],
    pairs: a!.map((value, i) => ({
      label: `Plot ${i}`,
      mean: (value + b![i]!) / 2,
      difference: value - b![i]!,
    })),
    agreement,
  });
  const { marks } = content.draw({ widthPx: 720, heightPx: null, textPx: 12 });
  // pairs 0 and 2: differences -2 and 5
  const pair = (label: string) => marks.find(({ says }) => says.startsWith(label))!;
  const perPoint = (pair('Plot 0').y - pair('Plot 2').y) / 7;
  const zero = pair('Plot 0').y - 2 * perPoint;
  const [upper, middle, lower] = parts(drawn(content), 'limit').map(
    ({ y1 }) => (zero - Number(y1)) / perPoint,
  );
  expect(upper).toBeCloseTo(agreement.limits[1], 1);
  expect(middle).toBeCloseTo(agreement.meanDifference, 1);
  expect(lower).toBeCloseTo(agreement.limits[0], 1);
});

test('the reference line of normal quantiles ends inside the panel', () => {
  const content = normalQuantiles({
    ...WORDS,
    scaleName: '%',
    treatments: TREATMENTS,
    line: { intercept: 0, slope: 50 },
    residuals: [-1, 0, 1].map((value) => ({
      plot: `10${value + 2}`,
      treatment: '1',
      fitted: 10,
      residual: value,
      normalQuantile: value,
    })),
  });
  const [, from, , to] = numbersIn(parts(drawn(content), 'reference')[0]!.d!);
  const { heightPx } = content.draw({ widthPx: 720, heightPx: null, textPx: 12 });
  expect(Math.max(from!, to!)).toBeLessThan(heightPx);
  expect(Math.min(from!, to!)).toBeGreaterThan(0);
});

test('on a page a figure has heading, labelled picture, caption and its table', () => {
  const markup = renderToStaticMarkup(<TreatmentBars {...bars([meanOf(0, 40), meanOf(1, 20)])} withTable />);
  expect(markup).toMatch(/<figure[^>]* aria-labelledby="([^"]+)"><h3 id="\1"/);
  expect(markup).toContain('role="img" aria-label="Weedy grass cover. Weedy grass cover on 21 June 2027');
  expect(markup).toContain('tabindex="0"');
  expect(markup).toContain('role="status"');
  expect(markup.match(/<tr>/g)).toHaveLength(3);
  expect(renderToStaticMarkup(<CoverOverTime {...overTime([])} />)).toContain('no value');
});
