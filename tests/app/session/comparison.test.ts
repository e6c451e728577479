import { expect, test } from 'vitest';
import type { CompareWorker } from '../../../src/app/measuring/compareWorker.ts';
import { comparisonName, openComparisonWith } from '../../../src/app/session/comparison.ts';
import type { Session } from '../../../src/app/session/session.ts';
import { ComparisonDesk } from '../../../src/core/statistics/comparisonDesk.ts';
import type { DeclaredAnalysis } from '../../../src/core/statistics/declaredAnalysis.ts';
import type { TrialPlan } from '../../../src/core/trial/trialPlan.ts';
import { samplePlan } from '../../core/trial/samplePlan.ts';
import { testBrowser } from './testSession.ts';

const quality = { kind: 'rated', variableId: 'turf-quality' } as const;
const DATES = ['2027-04-12', '2027-07-26'];

const plan = (): TrialPlan => ({
  ...samplePlan(),
  ratedVariables: [
    { id: 'turf-quality', name: 'Turf quality', unit: '1-9', least: 1, most: 9, step: 0.5, better: 'higher' },
  ],
});

const declaration = (more: Partial<DeclaredAnalysis> = {}): DeclaredAnalysis => ({
  variable: quality,
  method: null,
  when: { kind: 'date', ratingDate: '2027-07-26' },
  transform: 'none',
  alpha: 0.05,
  controlThreshold: null,
  minimumPressure: 0,
  classes: plan().trial.classes,
  gapRule: { kind: 'every-pixel' },
  exclusions: [],
  ...more,
});

/** The worker's work done in the test itself; notes in which order it was asked. */
class DeskWorker implements CompareWorker {
  readonly asked: string[] = [];
  terminated = false;
  readonly #desk = new ComparisonDesk();
  put: CompareWorker['put'] = async (...args) => this.#desk.put(...args);
  onDate: CompareWorker['onDate'] = async (name, date) => {
    this.asked.push(date);
    return this.#desk.onDate(name, date);
  };
  overDates: CompareWorker['overDates'] = async (name) => {
    this.asked.push('over dates');
    return this.#desk.overDates(name);
  };
  residuals: CompareWorker['residuals'] = async (...args) => this.#desk.residuals(...args);
  terminate = () => {
    this.terminated = true;
  };
  onDeath = () => {};
}

/** A trial with a score of each plot on both dates: block, and a step for the treatment. */
async function scoredTrial(session: Session): Promise<void> {
  const trial = await session.openTrial();
  await trial.create(plan(), 'K');
  for (const ratingDate of DATES) {
    for (const { plot, block, treatment } of plan().plots) {
      const value = 1 + block! / 2 + (treatment === 4 ? 4 : 0) + (Number(plot) % 3) / 2;
      await trial.score({ variable: 'turf-quality', plot, ratingDate, rater: 'K', value }, '');
    }
  }
}

async function opened(session: Session) {
  const worker = new DeskWorker();
  const comparison = await session.open(openComparisonWith(() => worker));
  return { worker, comparison };
}

test('nothing is compared before it was declared; then the deciding date comes first', async () => {
  const session = await testBrowser().open();
  await scoredTrial(session);
  const { worker, comparison } = await opened(session);
  comparison.want([{ variable: quality, plots: 'as-declared' }]);
  expect(comparison.state.get()).toMatchObject({ ready: true, declared: null });
  expect(comparison.observations(quality, null)!.observations).toHaveLength(32);
  expect(worker.asked).toEqual([]);

  expect(await comparison.declare(declaration(), 'K', null)).toBe(true);
  const found = () => comparison.state.get().comparisons.get(comparisonName(quality, 'as-declared'));
  await expect.poll(() => found()?.overDates).toBeTruthy();
  expect(worker.asked[0]).toBe('2027-07-26');
  expect(found()!.byDate.get('2027-07-26')!.role).toBe('primary');
  expect(found()!.byDate.get('2027-04-12')!.role).toBe('exploratory');
  const residuals = await comparison.residuals(found()!, '2027-07-26');
  expect(residuals).toHaveLength(16);
  expect(residuals.reduce((sum, { residual }) => sum + residual, 0)).toBeCloseTo(0, 9);
  comparison.stop();
  expect(worker.terminated).toBe(true);
  await session.close();
});

test('a later declaration amends, with a reason; both stay, and both tabs see the newest', async () => {
  const browser = testBrowser();
  const [one, other] = [await browser.open(), await browser.open()];
  await scoredTrial(one);
  const here = (await opened(one)).comparison;
  await here.declare(declaration(), 'K', null);
  const there = (await opened(other)).comparison;
  expect(there.state.get().declared).toEqual(declaration());
  await expect(here.declare(declaration({ alpha: 0.1 }), 'K', ' ')).rejects.toThrow('needs a reason');
  expect(await here.declare(declaration({ alpha: 0.1 }), 'K', 'asked for by the funder')).toBe(true);
  await expect.poll(() => there.state.get().declared?.alpha).toBe(0.1);
  const { declarations } = there.state.get();
  expect(declarations.map(({ reason, declared }) => [reason, declared?.alpha])).toEqual([
    [null, 0.05],
    ['asked for by the funder', 0.1],
  ]);
  here.stop();
  there.stop();
  await one.close();
  await other.close();
});

test('a changed score is compared anew; what was worked out from the old one is dropped', async () => {
  const session = await testBrowser().open();
  await scoredTrial(session);
  const { comparison } = await opened(session);
  await comparison.declare(declaration(), 'K', null);
  const mean = () =>
    comparison.state
      .get()
      .comparisons.get(comparisonName(quality, 'as-declared'))
      ?.byDate.get('2027-07-26')
      ?.analysis.treatments.find(({ treatment }) => treatment === '3')?.mean;
  await expect.poll(mean).toBeTypeOf('number');
  const before = mean()!;
  const trial = await session.openTrial();
  // plot 101 has treatment 3 in sample-images/trial.json: its score was 1 + 1/2 + 2/2
  const score = { variable: 'turf-quality', plot: '101', ratingDate: '2027-07-26', rater: 'K' };
  await trial.score({ ...score, value: 2.5 + 4 }, 'misread');
  await expect.poll(mean).toBeCloseTo(before + 1, 9);
  comparison.stop();
  await session.close();
});

test('exclusions of the declaration keep plots out; all plots can be compared beside', async () => {
  const session = await testBrowser().open();
  await scoredTrial(session);
  const { comparison } = await opened(session);
  const exclusion = { id: 'X1', plot: '101', ratingDate: null, variable: null, reason: 'flooded', by: 'K' };
  await comparison.declare(declaration({ exclusions: [exclusion] }), 'K', null);
  comparison.want([{ variable: quality, plots: 'all' }]);
  const plots = (which: 'as-declared' | 'all') =>
    comparison.state
      .get()
      .comparisons.get(comparisonName(quality, which))
      ?.byDate.get('2027-07-26')
      ?.analysis.treatments.reduce((sum, { n }) => sum + n, 0);
  await expect.poll(() => [plots('as-declared'), plots('all')]).toEqual([15, 16]);
  comparison.stop();
  await session.close();
});
