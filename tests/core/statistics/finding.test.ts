import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compareTrial, type RatedObservation } from '../../../src/core/statistics/compareTrial.ts';
import { type Finding, findingOf } from '../../../src/core/statistics/finding.ts';
import { noticeableDifference, powerForDifference } from '../../../src/core/statistics/planning.ts';
import { TRANSFORMS, type Transform } from '../../../src/core/statistics/transforms.ts';
import type { TreatmentAnalysis } from '../../../src/core/statistics/treatmentAnalysis.ts';
import { variableWords } from '../../../src/core/text/compare.ts';
import { type FindingSentence, findingSentences } from '../../../src/core/text/finding.ts';
import type { ApplicationProgress } from '../../../src/core/trial/applicationsBy.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';

const variable = { kind: 'class', classId: 'weedy-grass' } as const;
const words = variableWords(variable, DEFAULT_CLASSES, []);
const DATE = '2027-07-26';

/** Values by treatment (rows) and block (columns); null for a missing plot. */
function analysisOf(
  values: readonly (readonly (number | null)[])[],
  control: string | null,
  transform: Transform = 'none',
): TreatmentAnalysis {
  const observations = values.flatMap((row, treatment) =>
    row.flatMap((value, block): RatedObservation[] =>
      value === null
        ? []
        : [
            {
              plot: `${block + 1}0${treatment + 1}`,
              treatment: String(treatment + 1),
              block: String(block + 1),
              row: null,
              column: null,
              ratingDate: DATE,
              classId: 'weedy-grass',
              value,
            },
          ],
    ),
  );
  const options = { design: 'randomized-complete-block', control, transform } as const;
  return compareTrial(observations, options).analyses[0]!.analysis;
}

const finding = (
  analysis: TreatmentAnalysis,
  control: string | null,
  applications: ReadonlyMap<number, ApplicationProgress> = new Map(),
  minimumPressure = 5,
): Finding =>
  findingOf({
    variable,
    at: { kind: 'date', ratingDate: DATE },
    analysis,
    control,
    minimumPressure,
    applications,
  });

const said = (found: Finding) => findingSentences(found, words).map(({ text }) => text);

/** Weedy grass on the last date of the rendered sample trial: true cover of 1, 2, 3, 4 about 47, 39, 30, 6. */
const SAMPLE = [
  [47, 44, 50, 46],
  [40, 36, 41, 38],
  [28, 33, 31, 28],
  [7, 4, 6, 6],
];

describe('the finding in sentences', () => {
  test('what was shown comes first with difference, interval, n and date; last that it is one trial', () => {
    const sentences = said(finding(analysisOf(SAMPLE, '1'), '1'));
    expect(sentences[0]).toMatch(
      /^On 26 July 2027, weedy grass cover was lower in 3 treatments than in the untreated control \(46\.8 %, n = 4\): treatment 2 at 38\.7 %, a difference of 8\.0 points \(95 % interval /,
    );
    expect(sentences.at(-1)).toBe('One trial, one site and season: not a recommendation.');
  });

  test('where none was shown, it says what could have been missed', () => {
    const sentences = said(
      finding(
        analysisOf(
          [
            [20, 31, 25, 29],
            [24, 19, 33, 26],
          ],
          '1',
        ),
        '1',
      ),
    );
    expect(sentences[0]).toMatch(
      /no difference in weedy grass cover from the untreated control .* was shown for 2 \(25\.5 %\)\. A true difference smaller than about \d+ points could easily have been missed\.$/,
    );
  });

  test('a treatment whose applications are all still to come is not judged', () => {
    const applications = new Map([
      [2, { done: 0, total: 3 }],
      [3, { done: 1, total: 3 }],
    ]);
    const found = finding(analysisOf(SAMPLE, '1'), '1', applications);
    expect(found.judged.map(({ treatment }) => treatment)).toEqual(['3', '4']);
    const sentences = said(found);
    expect(sentences).toContain(
      'Treatment 2 is not judged: none of its 3 applications is entered as done by then.',
    );
    expect(sentences).toContain('Applications done by then: 1 of 3 in 3.');
    expect(sentences[0]).not.toContain('treatment 2');
  });

  test('of many treatments the two ends are told with figures, the rest by number', () => {
    const many = Array.from({ length: 12 }, (_, index) =>
      SAMPLE[0]!.map((value, block) => value - 3 * index + ((block * index) % 3)),
    );
    const sentences = said(finding(analysisOf(many, '1'), '1'));
    expect(sentences[0]).toMatch(
      /lower in \d+ treatments .*: most of all treatment 12 at .*; least of them treatment \d at .*\. Between them treatments /,
    );
    expect(sentences[0]!.length).toBeLessThan(420);
    // 11 treated make 55 pairs
    expect(sentences.join(' ')).toMatch(/Among the treated, \d+ of 55 pairs are shown to differ \(Tukey\)/);
  });

  test('low pressure in the control is said', () => {
    const low = SAMPLE.map((row) => row.map((value) => value / 20));
    expect(said(finding(analysisOf(low, '1'), '1')).join(' ')).toContain(
      'The pressure was low: the untreated control had 2.3 %, below the 5.0 % asked for.',
    );
  });

  test('nothing varies, one block, no control: words instead of claims', () => {
    const zero = SAMPLE.map((row) => row.map(() => 0));
    expect(said(finding(analysisOf(zero, '1'), '1')).join(' ')).toContain('no difference can be tested');
    const one = SAMPLE.map((row) => row.slice(0, 1));
    expect(said(finding(analysisOf(one, '1'), '1')).join(' ')).toContain('no difference can be tested');
    const without = said(finding(analysisOf(SAMPLE, null), null));
    expect(without[0]).toContain('No untreated control takes part');
    expect(without.join(' ')).toContain('4 was lower than 1, 2 and 3 (Tukey)');
  });
});

test('the noticeable difference is the one that planning gives its power to', () => {
  // blocks 4, treatments 4: 9 error df; any plot variance
  const components = { plot: 20, frame: 0, point: 0 };
  const effort = {
    design: 'randomized-complete-block',
    treatments: 4,
    blocks: 4,
    framesPerPlot: 1,
    pointsPerFrame: 1,
  } as const;
  const found = noticeableDifference(Math.sqrt((2 * 20) / 4), 9, 0.8, 0.05)!;
  expect(powerForDifference(effort, components, found)).toBeCloseTo(0.8, 9);
});

describe('over many random trials', () => {
  const trial = fc
    .record({
      values: fc
        .tuple(fc.integer({ min: 2, max: 6 }), fc.integer({ min: 1, max: 5 }))
        .chain(([treatments, blocks]) =>
          fc.array(
            fc.array(
              fc.oneof(
                { weight: 40, arbitrary: fc.double({ min: 0, max: 100, noNaN: true }) },
                { weight: 1, arbitrary: fc.constant(null) },
                { weight: 4, arbitrary: fc.constant(0) },
              ),
              { minLength: blocks, maxLength: blocks },
            ),
            { minLength: treatments, maxLength: treatments },
          ),
        ),
      control: fc.constantFrom('1', '2', '9', null),
      transform: fc.constantFrom(...TRANSFORMS),
      toCome: fc.array(fc.integer({ min: 1, max: 6 }), { maxLength: 2 }),
    })
    .filter(({ values }) => values.flat().some((value) => value !== null));

  const namesIn = (sentence: FindingSentence) => sentence.treatments;

  test('a sentence claims only what its table shows', () => {
    fc.assert(
      fc.property(trial, ({ values, control, transform, toCome }) => {
        const analysis = analysisOf(values, control, transform);
        const applications = new Map(toCome.map((treatment) => [treatment, { done: 0, total: 2 }]));
        const found = finding(analysis, control, applications);
        const sentences = findingSentences(found, words);
        const all = sentences.map(({ text }) => text).join(' ');
        expect(all).not.toMatch(/did not differ|no effect|are equal|the same as|recommend(?!ation\.$)/);
        expect(all).not.toMatch(/NaN|undefined|null|Infinity/);
        expect(sentences.at(-1)!.kind).toBe('scope');
        const of = (name: string) => analysis.treatments.find(({ treatment }) => treatment === name)!;
        for (const sentence of sentences.filter(({ kind }) => kind === 'shown')) {
          const direction = sentence.text.includes(' was lower ') ? -1 : 1;
          for (const name of namesIn(sentence)) {
            const { difference, p, low, high } = of(name).dunnett!;
            expect(p!).toBeLessThan(analysis.alpha);
            expect(Math.sign(difference!)).toBe(direction);
            // an interval that is told leaves out 0
            expect(low! * high!).toBeGreaterThan(0);
            expect(toCome).not.toContain(Number(name));
          }
        }
        for (const sentence of sentences.filter(({ kind }) => kind === 'not-shown')) {
          for (const name of namesIn(sentence)) {
            expect(of(name).dunnett!.p!).toBeGreaterThanOrEqual(analysis.alpha);
          }
        }
        for (const { lower, higher, p } of found.amongTreated) {
          expect(p).toBeLessThan(analysis.alpha);
          const pair = analysis.pairs.find(
            ({ a, b }) => (a === lower && b === higher) || (a === higher && b === lower),
          )!;
          expect(pair.a === lower ? pair.difference! : -pair.difference!).toBeLessThan(0);
        }
        // every treatment but the control is either judged, or said not to be
        const spoken = new Set([...found.judged, ...found.notJudged].map(({ treatment }) => treatment));
        for (const { treatment, mean } of analysis.treatments) {
          if (treatment !== control && mean !== null) expect(spoken).toContain(treatment);
        }
      }),
      { numRuns: 100, seed: 20270726 },
    );
  });
});
