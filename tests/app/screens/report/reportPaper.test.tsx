import fc from 'fast-check';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, test } from 'vitest';
import { ReportPaper } from '../../../../src/app/screens/report/paper/ReportPaper.tsx';
import { SignsPaper } from '../../../../src/app/screens/report/paper/SignsPaper.tsx';
import type { ReportChoices, ReportPhoto, ReportSource } from '../../../../src/core/report/reportSource.ts';
import { trialReport } from '../../../../src/core/report/trialReport.ts';
import type { TrialPlan } from '../../../../src/core/trial/trialPlan.ts';
import { comparisonsOf, fullSource } from '../../../support/reportSource.ts';

/** Changed copies of it are made, it stays. */
const SOURCE = fullSource();
const ALL: ReportChoices = { ratingDates: null, withNames: true };

const paperOf = (source: ReportSource, choices = ALL, length: 'long' | 'short' = 'long'): string =>
  renderToStaticMarkup(
    <ReportPaper
      report={trialReport(source, choices)}
      length={length}
      paper="a4"
      picturePlan={null}
      pictures={new Map()}
    />,
  );

const withPlan = (source: ReportSource, change: (plan: TrialPlan) => TrialPlan): ReportSource => ({
  ...source,
  plan: change(source.plan),
});

const withTrial = (source: ReportSource, change: Partial<TrialPlan['trial']>) =>
  withPlan(source, (plan) => ({ ...plan, trial: { ...plan.trial, ...change } }));

const withApplications = (
  source: ReportSource,
  change: (application: TrialPlan['applications'][number]) => TrialPlan['applications'][number],
) => withPlan(source, (plan) => ({ ...plan, applications: plan.applications.map(change) }));

type Done = Extract<TrialPlan['applications'][number]['progress'], { state: 'done' }>;

const withDone = (source: ReportSource, change: (done: Done) => Partial<Done>) =>
  withApplications(source, (application) =>
    application.progress.state === 'done'
      ? { ...application, progress: { ...application.progress, ...change(application.progress) } }
      : application,
  );

const withConditions = (
  source: ReportSource,
  change: Partial<NonNullable<TrialPlan['ratings'][number]['conditions']>> | null,
) =>
  withPlan(source, (plan) => ({
    ...plan,
    ratings: plan.ratings.map((rating) =>
      rating.conditions
        ? { ...rating, conditions: change === null ? null : { ...rating.conditions, ...change } }
        : rating,
    ),
  }));

const withFigures = (
  source: ReportSource,
  change: (figure: NonNullable<ReportPhoto['figures']['automatic']>) => Partial<typeof figure>,
): ReportSource => ({
  ...source,
  photos: source.photos.map((photo) => ({
    ...photo,
    figures: Object.fromEntries(
      Object.entries(photo.figures).map(([method, figure]) => [method, { ...figure, ...change(figure) }]),
    ),
  })),
});

const weatherOf = ({ weather }: Done) => weather!;

/** A datum, how it is taken out of the records, and the words that only it can put into a report. */
interface Datum {
  readonly name: string;
  readonly without: (source: ReportSource) => ReportSource;
  readonly words: readonly (string | RegExp)[];
}

const DATA: readonly Datum[] = [
  {
    name: 'objective',
    without: (s) =>
      withPlan(s, (plan) => {
        const { objective: _objective, ...trial } = plan.trial;
        return { ...plan, trial };
      }),
    words: ['objective-mark'],
  },
  {
    name: 'coordinates',
    without: (s) => withTrial(s, { site: { ...s.plan.trial.site, latitudeDegrees: null } }),
    words: ['33.4021°', '151.7033°'],
  },
  {
    name: 'notes on the site',
    without: (s) => withTrial(s, { site: { ...s.plan.trial.site, notes: '' } }),
    words: ['site-mark'],
  },
  {
    name: 'cultivar',
    without: (s) => withTrial(s, { turf: { ...s.plan.trial.turf, cultivar: null } }),
    words: ['cultivar-mark'],
  },
  {
    name: 'sown over',
    without: (s) => withTrial(s, { turf: { ...s.plan.trial.turf, sownOver: null } }),
    words: ['sown-over-mark'],
  },
  {
    name: 'seed rate',
    without: (s) => withTrial(s, { sowing: { ...s.plan.trial.sowing, rate: null } }),
    words: ['11.93 g/m2'],
  },
  {
    name: 'mowing height',
    without: (s) => withTrial(s, { mowing: { ...s.plan.trial.mowing, heightMm: null } }),
    words: ['23.5 mm'],
  },
  {
    name: 'mowing notes',
    without: (s) => withTrial(s, { mowing: { ...s.plan.trial.mowing, notes: '' } }),
    words: ['mowing-mark'],
  },
  { name: 'soil', without: (s) => withTrial(s, { soil: '' }), words: ['soil-mark'] },
  { name: 'irrigation', without: (s) => withTrial(s, { irrigation: '' }), words: ['irrigation-mark'] },
  {
    name: 'plot size',
    without: (s) => withTrial(s, { plotSize: null }),
    words: ['1.731 m', '2.219 m', '1.307 m', '1.709 m'],
  },
  {
    name: 'weather of the trial',
    without: (s) => ({ ...s, weather: [] }),
    words: [/3 May 2027|May 3, 2027/, /9 May 2027|May 9, 2027/],
  },
  {
    name: 'layout',
    without: (s) => withPlan(s, (plan) => ({ ...plan, layout: null })),
    words: ['987654', 'drawn with seed', 'swapped by hand', 'design: '],
  },
  {
    name: 'frame plan',
    without: (s) => withPlan(s, (plan) => ({ ...plan, framePlan: null })),
    words: ['5 places in each plot'],
  },
  {
    name: 'notes on a treatment',
    without: (s) =>
      withPlan(s, (plan) => ({
        ...plan,
        treatments: plan.treatments.map((treatment) => ({ ...treatment, notes: '' })),
      })),
    words: ['treatment-mark'],
  },
  {
    name: 'products',
    without: (s) => withApplications(s, (application) => ({ ...application, products: [] })),
    words: ['product-mark', '2.773 L/ha', 'experimental', 'Holds experimental uses'],
  },
  {
    name: 'equipment',
    without: (s) => withApplications(s, (application) => ({ ...application, equipment: null })),
    words: ['sprayer-mark'],
  },
  {
    name: 'nozzle',
    without: (s) => withApplications(s, (application) => ({ ...application, nozzle: null })),
    words: ['nozzle-mark'],
  },
  {
    name: 'pressure',
    without: (s) => withApplications(s, (application) => ({ ...application, pressure: null })),
    words: ['2.37 bar'],
  },
  {
    name: 'carrier volume',
    without: (s) => withApplications(s, (application) => ({ ...application, carrierVolume: null })),
    words: ['431 L/ha'],
  },
  { name: 'who sprayed', without: (s) => withDone(s, () => ({ by: null })), words: ['applicator-mark'] },
  { name: 'when it ended', without: (s) => withDone(s, () => ({ finishedAt: null })), words: ['07:13'] },
  {
    name: 'deviations of an application',
    without: (s) => withDone(s, () => ({ deviations: '' })),
    words: ['otherwise-mark'],
  },
  {
    name: 'air temperature',
    without: (s) => withDone(s, (done) => ({ weather: { ...weatherOf(done), airTemperatureC: null } })),
    words: ['air 13.7'],
  },
  {
    name: 'wind',
    without: (s) => withDone(s, (done) => ({ weather: { ...weatherOf(done), wind: null } })),
    words: ['1.9 m/s'],
  },
  {
    name: 'notes on the weather',
    without: (s) => withDone(s, (done) => ({ weather: { ...weatherOf(done), notes: '' } })),
    words: ['weather-mark'],
  },
  {
    name: 'conditions of a rating',
    without: (s) => withConditions(s, null),
    words: ['conditions-mark', 'stage-turf-mark', 'stage-weed-mark', 'noted-camera-mark', 'overcast'],
  },
  {
    name: 'notes on a rating',
    without: (s) => withConditions(s, { notes: '' }),
    words: ['conditions-mark'],
  },
  { name: 'sky', without: (s) => withConditions(s, { sky: null }), words: ['overcast'] },
  { name: 'dew', without: (s) => withConditions(s, { dew: null }), words: ['dew'] },
  {
    name: 'camera',
    without: (s) => ({ ...s, photos: s.photos.map((photo) => ({ ...photo, camera: null })) }),
    words: [/(?<!noted-)camera-mark/],
  },
  {
    name: 'who set frames',
    without: (s) => ({ ...s, photos: s.photos.map((photo) => ({ ...photo, frameBy: null })) }),
    words: ['confirmed by a person'],
  },
  {
    name: 'frames',
    without: (s) => withFigures(s, ({ settings }) => ({ settings: { ...settings, frame: null } })),
    words: ['517 mm', '613 mm', 'confirmed by a person'],
  },
  {
    name: 'scale',
    without: (s) => withFigures(s, () => ({ millimetresPerPixel: null })),
    words: ['0.83 mm'],
  },
  {
    name: 'grey card',
    without: (s) => withFigures(s, ({ settings }) => ({ settings: { ...settings, neutral: null } })),
    words: ['balanced by a grey area'],
  },
  {
    name: 'gap rule of the figures',
    without: (s) => withFigures(s, ({ settings: { gapRule: _gapRule, ...settings } }) => ({ settings })),
    words: ['circle of 7.5 mm'],
  },
  {
    name: 'record of the model',
    without: (s) => ({ ...s, models: [] }),
    words: ['23 photos', '4,321', '87 %'],
  },
  {
    name: 'agreement of the model',
    without: (s) => ({ ...s, models: s.models.map((model) => ({ ...model, agreement: null })) }),
    words: ['4,321', '87 %'],
  },
  { name: 'reviews', without: (s) => ({ ...s, reviews: [] }), words: ['looked at 2 of'] },
  {
    name: 'corrections',
    without: (s) => ({
      ...s,
      photos: s.photos.map((photo) => ({
        ...photo,
        figures: photo.figures.automatic ? { automatic: photo.figures.automatic } : {},
      })),
    }),
    words: ['which changed the class', 'looked at 2 of'],
  },
  {
    name: 'sign-off',
    without: (s) => ({ ...s, signOffs: [] }),
    words: ['signer-mark', 'sign-reason-mark', 'signed off'],
  },
  {
    name: 'points',
    without: (s) => ({ ...s, counted: [] }),
    words: ['observer-mark', '7 points', 'Automatic masks less points', 'says what was called'],
  },
  {
    name: 'scores',
    without: (s) => ({ ...s, scores: [] }),
    words: ['rater-mark', 'quality-mark', 'scored'],
  },
  {
    name: 'rater',
    without: (s) => ({ ...s, scores: s.scores.map((score) => ({ ...score, rater: null })) }),
    words: ['rater-mark'],
  },
  {
    name: 'deviations',
    without: (s) => withPlan(s, (plan) => ({ ...plan, deviations: [] })),
    words: [/(?<!application-)deviation-mark/, 'effect-mark', 'deviation-reason-mark'],
  },
  {
    name: 'amendment',
    without: (s) => ({ ...s, declarations: s.declarations.slice(0, 1) }),
    words: ['amender-mark', 'amendment-mark', 'amended by'],
  },
  {
    name: 'declaration',
    without: (s) => ({ ...s, declarations: [], comparisons: [] }),
    words: ['declarer-mark', 'amender-mark', 'Tukey', 'Dunnett', 'was lower than', 'SE: standard error'],
  },
  {
    name: 'comparisons',
    without: (s) => ({ ...s, comparisons: [] }),
    words: ['Tukey', 'was lower than', 'analysis of variance for'],
  },
  {
    name: 'photos',
    without: (s) => ({ ...s, photos: [], comparisons: [] }),
    words: ['taken from above', '0.0.7-mark', 'decoder-mark', 'start-mark', 'Tukey'],
  },
];

const full = paperOf(SOURCE);
const has = (paper: string, words: string | RegExp) =>
  typeof words === 'string' ? paper.includes(words) : words.test(paper);
test.each(DATA)('a full report tells of: $name', ({ words }) => {
  for (const one of words) expect(has(full, one), String(one)).toBe(true);
});

test('whatever is taken out of the records, no sentence claims it', () => {
  fc.assert(
    fc.property(fc.subarray([...DATA], { minLength: 1 }), (gone) => {
      const source = gone.reduce((rest, { without }) => without(rest), SOURCE);
      const paper = paperOf(source);
      for (const { name, words } of gone) {
        for (const one of words) if (has(paper, one)) throw new Error(`without ${name} it says ${one}`);
      }
      expect(paper).not.toMatch(/undefined|NaN|\[object|null/);
    }),
    { numRuns: 40, seed: 20_270_726 },
  );
});

test('each datum alone, taken out', () => {
  for (const { name, without, words } of DATA) {
    const paper = paperOf(without(SOURCE));
    for (const one of words) expect(has(paper, one), `without ${name}: ${String(one)}`).toBe(false);
  }
});

test('an empty plan still makes a report that says what is not there', () => {
  const source = SOURCE;
  const plan: TrialPlan = {
    ...source.plan,
    treatments: [],
    applications: [],
    layout: null,
    plots: [],
    framePlan: null,
    ratings: [],
    ratedVariables: [],
    deviations: [],
    exclusions: [],
  };
  const paper = paperOf({
    ...source,
    plan,
    photos: [],
    scores: [],
    counted: [],
    declarations: [],
    comparisons: [],
  });
  expect(paper).toContain('No plots are laid out.');
  expect(paper).toContain('No photo was measured.');
  expect(paper).toContain('No analysis was declared, so nothing is shown by treatment.');
  expect(paper).not.toMatch(/undefined|NaN|Infinity/);
});

test('a copy without names has no name of a treatment, nothing that was applied and no product', () => {
  const source = SOURCE;
  for (const length of ['long', 'short'] as const) {
    const paper = paperOf(source, { ...ALL, withNames: false }, length);
    for (const words of ['L-31', 'L-58', 'growth regulator', 'product-mark', 'treatment-mark']) {
      expect(paper).not.toContain(words);
    }
    expect(paper).toContain('Treatments are shown by number');
    expect(paper).toContain('untreated control');
  }
});

test('the finding on paper is the finding of the comparison, and every table says what has to be borne in mind', () => {
  const paper = paperOf(SOURCE);
  expect(paper).toMatch(/weedy grass cover .*was lower/);
  expect(paper).toContain('One trial, one site and season: not a recommendation.');
  expect(paper).toContain('The product label and local regulations decide');
  // the excluded plot is in no mean: three plots of its treatment remain
  expect(paper).toContain('exclusion-mark');
});

test('texts of a trial cannot become markup', () => {
  const source = withTrial(SOURCE, { name: '<script>alert(1)</script>', soil: '<img src=x>' });
  const paper = paperOf(source);
  expect(paper).not.toMatch(/<script|<img/);
});

test('a transformed analysis gives no standard error of back-transformed means', () => {
  const source = SOURCE;
  const declared = { ...source.declarations.at(-1)!.declared!, transform: 'arcsine-square-root' } as const;
  const transformed = {
    ...source,
    declarations: [{ ...source.declarations[0]!, declared }],
    comparisons: comparisonsOf(source.plan, source.photos, declared),
  };
  const own = paperOf(transformed).split('Other variables')[0]!;
  expect(own).not.toMatch(/<th[^>]*>SE<\/th>/);
  expect(paperOf(source).split('Other variables')[0]).toMatch(/<th[^>]*>SE<\/th>/);
});

test('signs show a treatment only where that was chosen', () => {
  const { plan } = SOURCE;
  const sign = (treatment: 'none' | 'number' | 'name') =>
    renderToStaticMarkup(<SignsPaper plan={plan} paper="letter" perPage="one" treatment={treatment} />);
  expect(sign('none').match(/paper-sign"/g)).toHaveLength(16);
  expect(sign('none')).not.toMatch(/Treatment|L-31/);
  expect(sign('number')).toContain('Treatment 3');
  expect(sign('number')).not.toContain('L-31');
  expect(sign('name')).toContain('L-31');
});
