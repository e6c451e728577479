import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { addCompareCommand } from '../../src/cli/compare.ts';
import { writeTrialPlan } from '../../src/core/exchange/trialPlan.ts';
import { analyseTreatments } from '../../src/core/statistics/analyseTreatments.ts';
import { trialObservations } from '../../src/core/statistics/trialObservations.ts';
import { samplePlan } from '../core/trial/samplePlan.ts';
import { referenceValues } from '../support/referenceValues.ts';
import { runCommand } from '../support/runCommand.ts';

const folder = mkdtempSync(`${tmpdir()}/compare-`);
afterAll(() => rmSync(folder, { recursive: true }));
const trialFile = fileURLToPath(new URL('../../sample-images/trial.json', import.meta.url));

function file(name: string, lines: readonly string[]): string {
  writeFileSync(`${folder}/${name}`, `${lines.join('\n')}\n`);
  return `${folder}/${name}`;
}

async function compared(lines: readonly string[], ...args: string[]) {
  const run = await runCommand(addCompareCommand, [
    'compare',
    file('table.csv', lines),
    '--json',
    '-',
    ...args,
  ]);
  if (run.refusal !== null) throw new Error(run.refusal);
  // biome-ignore lint/suspicious/noExplicitAny: a document of the outside, looked at field by field
  return JSON.parse(run.output) as any;
}

async function refused(lines: readonly string[], ...args: string[]): Promise<string> {
  return (
    (await runCommand(addCompareCommand, ['compare', file('table.csv', lines), ...args])).refusal ??
    'not refused'
  );
}

/** MASS::oats, variety Marvellous; R's analysis in the same file. */
interface Oats {
  data: { treatment: string; block: string; y: number | null }[];
  expected: {
    anova_sequential_block_then_treatment: { F: number | null; p: number | null; ss: number }[];
    cv_percent: number;
    'lsd_0.05': number;
    'tukey_hsd_0.05': number;
    means: { treatment: string; lsmean: number }[];
    'letters_tukey_0.05': Record<string, string>;
    dunnett: { comparisons: { contrast: string; p_dunnett: number }[] };
  };
}
const oats = (name: string) => referenceValues<Oats>(name);
const HEAD = 'plot,block,treatment,rating_date,class,cover_percent';
const yields = (data: Oats['data']): string[] => [
  'plot,block,treatment,rating_date,yield',
  ...data.map(
    ({ treatment, block, y }) => `${block}-${treatment},${block},${treatment},2027-05-04,${y ?? 'NA'}`,
  ),
];

describe('any rated variable, from a tidy table to R figures', () => {
  test('complete blocks', async () => {
    const { data, expected } = oats('anova-oats-marvellous.json');
    const document = await compared(
      yields(data),
      '--value',
      'yield',
      '--unit',
      'g',
      '--control',
      '0.0cwt',
      '--better',
      'higher',
    );
    expect(document).toMatchObject({
      type: 'comparison',
      version: 1,
      variable: { name: 'yield', unit: 'g', scale: null, better: 'higher' },
    });
    const [analysis] = document.analyses;
    expect(analysis).toMatchObject({
      ratingDate: '2027-05-04',
      class: null,
      role: 'primary',
      design: 'randomized-complete-block',
      transform: 'none',
    });
    expect(analysis.anova.map((row: { source: string }) => row.source)).toEqual([
      'block',
      'treatment',
      'residual',
    ]);
    expect(analysis.anova[1].f).toBeCloseTo(expected.anova_sequential_block_then_treatment[1]!.F!, 9);
    expect(analysis.coefficientOfVariation).toBeCloseTo(expected.cv_percent, 9);
    expect(analysis.leastSignificantDifference).toEqual({
      alpha: 0.05,
      value: expect.closeTo(expected['lsd_0.05'], 8),
    });
    expect(analysis.honestlySignificantDifference.value).toBeCloseTo(expected['tukey_hsd_0.05'], 4);
    const dunnett = Object.fromEntries(
      expected.dunnett.comparisons.map((c) => [c.contrast.split(' - ')[0], c.p_dunnett]),
    );
    for (const own of analysis.treatments) {
      expect(own.mean).toBeCloseTo(
        expected.means.find(({ treatment }) => treatment === own.treatment)!.lsmean,
        8,
      );
      expect(own.lettersHsd).toBe(expected['letters_tukey_0.05'][own.treatment]);
      if (own.dunnett) expect(own.dunnett.p).toBeCloseTo(dunnett[own.treatment]!, 4);
      // higher is better here, so nothing is controlled
      expect(own.percentControl).toBeNull();
    }
  });
  test('a missing plot: least-squares means, no single LSD, both said', async () => {
    const { data, expected } = oats('anova-oats-marvellous-missing.json');
    const document = await compared(yields(data), '--value', 'yield');
    const [analysis] = document.analyses;
    const own = analysis.treatments.find(({ treatment }: { treatment: string }) => treatment === '0.2cwt');
    expect(own.mean).toBeCloseTo(expected.means.find(({ treatment }) => treatment === '0.2cwt')!.lsmean, 8);
    expect(analysis.leastSignificantDifference.value).toBeNull();
    expect(analysis.noteCodes).toEqual(expect.arrayContaining(['missing-plots', 'unequal-standard-errors']));
    expect(document.noteCodes).toContain('empty-values');
  });
});

/** Two treatments and a control in three blocks on given dates; values by a rule that can be done in the head. */
function cover(
  dates: readonly string[],
  change: (row: string[]) => string[] | null = (row) => row,
): string[] {
  const base: Record<string, number> = { C: 40, A: 8, B: 20 };
  return [
    `photo,${HEAD},method`,
    ...dates.flatMap((date, d) =>
      [1, 2, 3].flatMap((block) =>
        Object.keys(base).flatMap((treatment, t) => {
          const value =
            base[treatment]! + d * (treatment === 'C' ? 5 : 3) + block + ((block * (t + 2) + d) % 3);
          const row = change([
            `${date}_${block}${t}.jpg`,
            `${block}${t}`,
            String(block),
            treatment,
            date,
            'weedy-grass',
            String(value),
            'automatic',
          ]);
          return row ? [row.join(',')] : [];
        }),
      ),
    ),
  ];
}
const DATES = ['2027-04-12', '2027-05-17', '2027-06-21'];

describe('compare', () => {
  test('subsamples are averaged, not counted as replicates', async () => {
    const once = await compared(cover(DATES.slice(0, 1)), '--control', 'C');
    const lines = cover(DATES.slice(0, 1));
    const doubled = lines.flatMap((line, i) =>
      i === 0 ? [line] : [line.replace('.jpg', 'x.jpg'), line.replace('.jpg', 'y.jpg')],
    );
    const twice = await compared(doubled, '--control', 'C');
    expect(twice.analyses[0].anova).toEqual(once.analyses[0].anova);
    expect(twice.noteCodes).toContain('subsamples-averaged');
  });
  test('without blocks completely randomized', async () => {
    const lines = cover(DATES.slice(0, 1)).map((line) =>
      line
        .split(',')
        .filter((_, i) => i !== 2)
        .join(','),
    );
    const document = await compared(lines);
    expect(document.analyses[0].design).toBe('completely-randomized');
    expect(document.analyses[0].rankTest.method).toBe('kruskal-wallis');
  });
  test('a trial file fills treatment and block, names the control and the day of sowing', async () => {
    const trial = JSON.parse(readFileSync(trialFile, 'utf8')) as { plots: { plot: string }[] };
    const lines = [
      'plot,rating_date,class,cover_percent',
      ...trial.plots.map(({ plot }, i) => `${plot},2027-04-12,weedy-grass,${10 + ((i * 7) % 11)}`),
      ...trial.plots.map(({ plot }, i) => `${plot},2027-05-17,weedy-grass,${30 + ((i * 5) % 11)}`),
    ];
    const document = await compared(lines, '--trial', trialFile, '--control-threshold', '20');
    expect(document.analyses[0].design).toBe('randomized-complete-block');
    expect(document.analyses[0].treatments.map((own: { n: number }) => own.n)).toEqual([4, 4, 4, 4]);
    expect(document.analyses[0].treatments[0]).toMatchObject({
      treatment: '1',
      percentControl: null,
      dunnett: null,
    });
    expect(document.overDates[0].lengthOfControl).toMatchObject({ threshold: 20, countedFrom: '2027-03-08' });
    expect(document.overDates[0].lengthOfControl.treatments[0]).toMatchObject({
      heldDays: 35,
      passedDays: 70,
    });
    expect(document.caution).toMatch(/label/);
  });
  test('a trial plan serves as well as a trial file', async () => {
    const lines = [
      'plot,rating_date,class,cover_percent',
      ...samplePlan().plots.map(({ plot }, i) => `${plot},2027-04-12,weedy-grass,${i + 5}`),
    ];
    writeFileSync(`${folder}/plan.json`, writeTrialPlan(samplePlan()));
    const fromPlan = await compared(lines, '--trial', `${folder}/plan.json`);
    expect(fromPlan.analyses).toEqual((await compared(lines, '--trial', trialFile)).analyses);
    writeFileSync(`${folder}/plan.json`, writeTrialPlan({ ...samplePlan(), version: 9 } as never));
    expect(await refused(lines, '--trial', `${folder}/plan.json`)).toMatch(/--trial ".*plan\.json": .*9/);
  });
  test('an untreated control beside the trial takes no part, as on the Compare screen, and it is said', async () => {
    const plan = samplePlan();
    const beside = plan.treatments.find(({ untreatedControl }) => untreatedControl !== null)!;
    beside.untreatedControl = 'adjacent';
    writeFileSync(`${folder}/beside.json`, writeTrialPlan(plan));
    const values = plan.plots.map(({ plot }, i) => ({ plot, percent: (i * 37) % 50 }));
    const lines = [
      'plot,rating_date,class,cover_percent',
      ...values.map(({ plot, percent }) => `${plot},2027-04-12,weedy-grass,${percent}`),
    ];
    const document = await compared(lines, '--trial', `${folder}/beside.json`);
    const photos = values.map(({ plot, percent }) => ({
      plot,
      ratingDate: '2027-04-12',
      figures: {
        automatic: { cover: [{ classId: 'weedy-grass', coverFraction: percent / 100 }], flags: [] },
      },
    }));
    const onScreen = trialObservations(
      { plan, photos, scores: [] },
      { kind: 'class', classId: 'weedy-grass' },
      'automatic',
    );
    const { anova, treatments } = analyseTreatments(onScreen.observations, {
      design: 'randomized-complete-block',
    });
    const [analysis] = document.analyses;
    const names = (list: readonly { treatment: string }[]) => list.map(({ treatment }) => treatment);
    expect(names(analysis.treatments)).toEqual(names(treatments));
    expect(names(treatments)).not.toContain(String(beside.number));
    const rowsOf = (rows: readonly { source: string; df: number }[]) =>
      rows.map(({ source, df }) => [source, df]);
    expect(rowsOf(analysis.anova)).toEqual(rowsOf(anova));
    for (const [i, { sumOfSquares }] of anova.entries()) {
      expect(analysis.anova[i].sumOfSquares).toBeCloseTo(sumOfSquares, 8);
    }
    expect(document.noteCodes).toEqual(expect.arrayContaining(['beside-left-out']));
    expect(document.notes.join(' ')).toContain(
      `4 values of treatment ${beside.number}, the untreated control`,
    );
  });
  test('one declared date, the others exploratory; none declared is said', async () => {
    const declared = await compared(cover(DATES), '--primary', '2027-05-17');
    expect(declared.analyses.map((own: { role: string }) => own.role)).toEqual([
      'exploratory',
      'primary',
      'exploratory',
    ]);
    expect(declared.overDates[0].area.role).toBe('exploratory');
    const area = await compared(cover(DATES), '--primary', 'area');
    expect(area.overDates[0].area.role).toBe('primary');
    const none = await compared(cover(DATES));
    expect(none.noteCodes).toContain('no-primary-declared');
  });
  test('percent control block by block is analysed without the control', async () => {
    const document = await compared(
      cover(DATES.slice(0, 1)),
      '--control',
      'C',
      '--percent-control',
      'blocks',
    );
    const [analysis] = document.analyses;
    expect(analysis.percentControl).toMatchObject({
      basis: 'blocks',
      formula: 'abbott',
      interval: 't-over-blocks',
    });
    expect(
      analysis.percentControlAnalysis.treatments.map((own: { treatment: string }) => own.treatment),
    ).toEqual(['A', 'B']);
    expect(analysis.percentControlAnalysis.noteCodes).toContain('control-left-out');
  });
  test('Henderson-Tilton and covariate only from before the first application', async () => {
    const before = ['--control', 'C', '--baseline', DATES[0]!];
    expect(await refused(cover(DATES), ...before)).toMatch(/not known.*--first-application/);
    expect(await refused(cover(DATES), ...before, '--first-application', '2027-04-01')).toMatch(
      /treatments began on 2027-04-01/,
    );
    expect(
      await refused(cover(DATES), '--covariate', DATES[1]!, '--first-application', '2027-04-13'),
    ).toMatch(/cannot be a baseline/);
    const document = await compared(
      cover(DATES),
      ...before,
      '--first-application',
      '2027-04-13',
      '--covariate',
      DATES[0]!,
    );
    expect(document.analyses[0].percentControl.formula).toBe('abbott');
    expect(document.analyses[1].percentControl.formula).toBe('henderson-tilton');
    expect(document.analyses[1].anova.map((row: { source: string }) => row.source)).toEqual([
      'block',
      'covariate',
      'treatment',
      'residual',
    ]);
    expect(document.analyses[1].noteCodes).toContain('covariate-used');
  });
  test('arcsine: means back in percent, degrees beside them', async () => {
    const [analysis] = (await compared(cover(DATES.slice(0, 1)), '--transform', 'arcsine-square-root'))
      .analyses;
    const own = analysis.treatments[0];
    expect(own.mean).toBeCloseTo(100 * Math.sin((own.meanTransformed * Math.PI) / 180) ** 2, 9);
    expect(own.standardError).toBeNull();
    expect(own.standardErrorTransformed).toBeGreaterThan(0);
    expect(analysis.scaleOfDifferences).toBe('transformed');
    expect(analysis.noteCodes).toContain('transformed-scale');
  });
  test('factors and planned contrasts', async () => {
    const lines = cover(DATES.slice(0, 1)).map(
      (line, i) => `${line},${i === 0 ? 'rate' : line.includes(',C,') ? 'none' : 'full'}`,
    );
    const document = await compared(
      lines,
      '--factors',
      'rate',
      '--contrast',
      'treated against none: A=0.5, B=0.5, C=-1',
    );
    expect(document.analyses[0].factorial.means.map((own: { level: string }) => own.level)).toEqual([
      'full',
      'none',
    ]);
    expect(document.analyses[0].contrasts[0].estimate).toBeLessThan(-20);
    expect(await refused(lines, '--contrast', 'odd: A=1, B=-2')).toMatch(/add to -1; they must add to 0/);
    expect(await refused(lines, '--contrast', 'odd: A=1, Z=-1')).toMatch(/names treatment "Z"/);
  });
  test('the readable table holds the same figures and the caution; nothing reads NaN', async () => {
    const { output } = await runCommand(addCompareCommand, [
      'compare',
      file('table.csv', cover(DATES)),
      '--control',
      'C',
      '--json',
      `${folder}/out.json`,
    ]);
    const document = JSON.parse(readFileSync(`${folder}/out.json`, 'utf8'));
    for (const own of document.analyses[0].treatments) expect(output).toContain(own.mean.toFixed(2));
    expect(output).toMatch(/product label and local regulations/);
    expect(output).toMatch(/Greenhouse-Geisser epsilon/);
    expect(output).not.toMatch(/NaN|undefined|Infinity|null/);
  });
});

describe('a table that cannot be compared is refused with row and column', () => {
  const good = cover(DATES.slice(0, 1));
  const edited = (line: number, column: number, text: string): string[] =>
    good.map((own, i) =>
      i === line
        ? own
            .split(',')
            .map((cell, j) => (j === column ? text : cell))
            .join(',')
        : own,
    );

  test.each([
    [
      'wrong columns',
      good.map((line) => line.replace('cover_percent', 'cover')),
      /no column "cover_percent"; found: photo, plot, block, treatment, rating_date, class, cover, method/,
    ],
    ['text in a number', edited(3, 6, 'lots'), /Row 4, column "cover_percent": "lots" is not a number/],
    ['a number with a unit', edited(3, 6, '12 %'), /Row 4, column "cover_percent": "12 %" is not a number/],
    ['105 %', edited(5, 6, '105'), /Row 6, column "cover_percent": 105 is outside 0 to 100/],
    ['below 0', edited(5, 6, '-1'), /Row 6, column "cover_percent": -1 is outside 0 to 100/],
    [
      'a doubled plot with another treatment',
      edited(2, 1, '10'),
      /Row 3, column "treatment": plot 10 has "A" here and "C" in row 2/,
    ],
    ['a doubled row', [...good, good[4]!], /Row 11 repeats row 5: plot 20/],
    [
      'a day that is none',
      edited(1, 4, '2027-02-30'),
      /Row 2, column "rating_date": "2027-02-30" is not a day/,
    ],
    ['a day the other way round', edited(1, 4, '12/04/2027'), /Row 2, column "rating_date"/],
    ['no plot', edited(7, 1, ''), /Row 8, column "plot": the cell is empty/],
    ['no treatment', edited(7, 3, ''), /Row 8, column "treatment": the cell is empty/],
    ['a block for some plots only', edited(7, 2, ''), /Column "block": plot 30 has no block/],
    ['mixed methods', edited(7, 7, 'corrected'), /several ways: automatic, corrected.*--method/],
    ['an empty file', [], /The file is empty/],
    ['only column names', good.slice(0, 1), /no value to compare/],
  ])('%s', async (_, lines, message) => {
    expect(await refused(lines)).toMatch(message);
  });
  test('unknown class, method, control, date', async () => {
    expect(await refused(good, '--class', 'clover')).toMatch(/no class "clover".*weedy-grass/);
    expect(await refused(good, '--method', 'points')).toMatch(/"points".*automatic/);
    expect(await refused(good, '--control', 'Z')).toMatch(/no treatment "Z".*A, B, C/);
    expect(await refused(good, '--primary', '2027-04-13')).toMatch(
      /nothing was rated on 2027-04-13.*2027-04-12/,
    );
    expect(await refused(good, '--design', 'latin-square')).toMatch(/needs row and column/);
    expect(await refused(good, '--alpha', '5')).toMatch(/--alpha is a number above 0 and below 1, got "5"/);
    expect(
      await refused(
        good.map((line) => line.replace('weedy-grass', 'clover')),
        '--trial',
        trialFile,
      ),
    ).toMatch(/Row 2, column "class": there is no class "clover"/);
  });
  test('--method chooses', async () => {
    const lines = [...good, ...good.slice(1).map((line) => line.replace('automatic', 'points'))];
    expect((await compared(lines, '--method', 'points')).analyses[0].treatments[0].n).toBe(3);
  });
  test('all problems are counted, the first twenty told', async () => {
    const bad = good.map((line, i) => (i === 0 ? line : line.replace('weedy-grass', '')));
    const many = [...bad, ...Array.from({ length: 4 }, () => bad.slice(1)).flat()];
    const message = await refused(many);
    expect(message).toMatch(/Row 2, column "class"/);
    expect(message).toMatch(/… and 25 more/);
  });
  test('no such file', async () => {
    const run = await runCommand(addCompareCommand, ['compare', `${folder}/none.csv`]);
    expect(run.refusal).toMatch(/none\.csv" cannot be read: no such file/);
  });
});
