import { describe, expect, test } from 'vitest';
import { auditEntries } from '../../src/core/trial/audit.ts';
import { DEFAULT_CLASSES } from '../../src/core/trial/defaultClasses.ts';
import type { TrialPlan } from '../../src/core/trial/trialPlan.ts';
import type { Overview } from '../../src/storage/projectOverview.ts';
import type { ProjectStore } from '../../src/storage/projectStore.ts';
import { samplePlan } from '../core/trial/samplePlan.ts';
import { addPhoto, DATABASE_KINDS, FACTS, newFigure, overviewOf, stored, storeOver } from './support.ts';

const WALK = { along: 'rows', turn: 'there-and-back', startRow: 'first', startColumn: 'first' } as const;
const SIGNATURE = { who: 'K', why: 'as agreed', when: '2027-05-01T08:00:00.000Z' };
const SEEDHEADS = {
  id: 'seedheads',
  name: 'Seedheads',
  reportingGroup: 'weedy-grass',
  startRole: null,
  key: 'S',
  colour: '#cc79a7',
};

function plan(change: (plan: TrialPlan) => void = () => {}): TrialPlan {
  const made = samplePlan();
  made.trial.classes = DEFAULT_CLASSES.map((one) => ({ ...one }));
  made.trial.gapRule = { kind: 'every-pixel' };
  change(made);
  return made;
}

const startTrial = (store: ProjectStore, content = plan()) =>
  stored(
    store.trials.create(
      { plan: content, photoRules: { fileNamePatterns: [], walk: WALK, orderTrusted: false } },
      'K',
    ),
  );

const editTrial = (store: ProjectStore, id: string, change: (plan: TrialPlan) => void) =>
  stored(
    store.trials.change(id, (before) => {
      const after = structuredClone(before.plan);
      change(after);
      return { ...before, plan: after, entries: auditEntries(before.plan, after, SIGNATURE) };
    }),
  );

/** Measures the photo as the queue would have it. */
async function measure(store: ProjectStore, id: string) {
  await stored(store.jobs.enqueue([id]));
  const { settings, modelSetAside, taught } = (await stored(store.jobs.claim(id, id)))!;
  await stored(store.jobs.finish(id, id, FACTS, newFigure({ settings })));
  return { settings, modelSetAside, taught };
}

const photoOf = ({ photos }: Overview) => photos[0]!;

describe.each(DATABASE_KINDS)('what counts as cover %s', (_, open) => {
  test('without a trial: three classes, every pixel', async () => {
    const store = storeOver(await open());
    const id = await addPhoto(store, 'a.jpg');
    expect((await measure(store, id)).settings).toEqual({
      classes: DEFAULT_CLASSES,
      frame: null,
      ignored: [],
      neutral: null,
    });
  });

  test("classes and rule are the trial's; changing them makes figures stale until they are measured again", async () => {
    const store = storeOver(await open());
    const id = await addPhoto(store, 'a.jpg');
    await measure(store, id);
    const trial = await startTrial(store);
    expect(photoOf(await overviewOf(store))).toMatchObject({ stale: false, definitionChanged: false });

    const rule = { kind: 'small-patches-to-surroundings', smallerThanMm: 10 } as const;
    await editTrial(store, trial, (edited) => {
      edited.trial.gapRule = rule;
    });
    expect(photoOf(await overviewOf(store))).toMatchObject({
      stale: true,
      definitionChanged: true,
      gapRule: rule,
    });
    expect((await measure(store, id)).settings.gapRule).toEqual(rule);
    expect(photoOf(await overviewOf(store))).toMatchObject({ stale: false, definitionChanged: false });

    await editTrial(store, trial, (edited) => {
      edited.trial.classes.push({ ...SEEDHEADS });
    });
    expect(photoOf(await overviewOf(store))).toMatchObject({ stale: true, definitionChanged: true });
    expect((await measure(store, id)).settings.classes).toHaveLength(4);
  });

  test('a class called otherwise changes no figure, and figures call it so at once', async () => {
    const store = storeOver(await open());
    const id = await addPhoto(store, 'a.jpg');
    await measure(store, id);
    const trial = await startTrial(store);
    const seen: Overview[] = [];
    const stop = await store.observeOverview(
      (overview) => seen.push(overview),
      (error) => {
        throw error;
      },
    );
    await editTrial(store, trial, (edited) => {
      Object.assign(edited.trial.classes[0]!, { name: 'Perennial ryegrass', colour: '#009e73' });
    });
    await expect.poll(() => photoOf(seen.at(-1)!).classes[0]!.name).toBe('Perennial ryegrass');
    expect(photoOf(seen.at(-1)!)).toMatchObject({ stale: false, definitionChanged: false });
    expect(photoOf(seen.at(-1)!).figure?.settings.classes[0]).toMatchObject({
      name: 'Perennial ryegrass',
      colour: '#009e73',
    });
    stop();
  });

  test('a model taught on other classes is set aside, and is used again when the classes are back', async () => {
    const store = storeOver(await open());
    const id = await addPhoto(store, 'a.jpg');
    const trial = await startTrial(store);
    const classes = DEFAULT_CLASSES.map((one) => one.id);
    const model = { id: 'ab'.repeat(32), model: { type: 'cover-model', version: 1, classes } as never };
    const { ratingDate } = photoOf(await overviewOf(store));
    await stored(store.teaching.adoptModel({ taught: model, ratingDate, trialId: null, photoIds: [id] }));
    expect(await measure(store, id)).toMatchObject({
      modelSetAside: false,
      settings: { modelId: model.id },
      taught: { id: model.id },
    });

    await editTrial(store, trial, (edited) => {
      edited.trial.classes.push({ ...SEEDHEADS });
    });
    expect(photoOf(await overviewOf(store))).toMatchObject({
      stale: true,
      modelId: null,
      modelSetAside: true,
    });
    const aside = await measure(store, id);
    expect(aside).toMatchObject({ modelSetAside: true, taught: null });
    expect(aside.settings.modelId).toBeUndefined();

    await editTrial(store, trial, (edited) => {
      edited.trial.classes.pop();
    });
    expect(photoOf(await overviewOf(store))).toMatchObject({ stale: true, modelId: model.id });
  });

  test('a plan whose classes cannot be read changes nothing', async () => {
    const store = storeOver(await open());
    const id = await addPhoto(store, 'a.jpg');
    await startTrial(
      store,
      plan((made) => {
        Object.assign(made.trial, { classes: 'three' });
      }),
    );
    expect((await measure(store, id)).settings.classes).toEqual(DEFAULT_CLASSES);
  });
});
