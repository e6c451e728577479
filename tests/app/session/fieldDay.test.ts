import { readFile } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { openFieldDay, photographed } from '../../../src/app/session/fieldDay.ts';
import type { Session } from '../../../src/app/session/session.ts';
import { samplePlan } from '../../core/trial/samplePlan.ts';
import { testBrowser } from './testSession.ts';

const DATE = '2027-05-17';
const sample = async (name: string, as: string) =>
  new File([await readFile(new URL(`../../../sample-images/photos/${name}`, import.meta.url))], as, {
    type: 'image/jpeg',
  });

async function openDay(session: Session) {
  return session.open(openFieldDay(DATE));
}

test('a photo goes to the plot on screen whatever it is called, and the day is taken up where it was left', async () => {
  const browser = testBrowser();
  const session = await browser.open();
  await (await session.openTrial()).create(samplePlan(), 'K');
  const day = await openDay(session);
  expect(day.state.get().stops).toHaveLength(16);
  await day.goTo(4);
  await day.awaitPhoto();
  // its name says another plot and another date: the person stands at 204
  const photo = await sample('2027-04-12_101.jpg', '2027-04-12_101.jpg');
  expect(await day.take(photo, 'K')).toMatchObject({ state: 'added' });
  await expect.poll(() => photographed(day.state.get().stops)).toBe(1);
  expect(day.state.get().stops[4]).toMatchObject({ plot: { plot: '204' }, replaced: [], skipped: null });
  expect(session.photos.get()).toMatchObject([{ plot: '204', ratingDate: DATE, namedBy: 'person' }]);
  await day.goTo(5);
  await day.awaitPhoto();

  const later = await openDay(await browser.open());
  expect(later.state.get()).toMatchObject({ at: 5, missed: { plot: '203', place: 1 } });
  expect(await later.take(photo, 'K')).toEqual({
    state: 'same-photo',
    name: '2027-04-12_101.jpg',
    plot: '204',
    ratingDate: DATE,
  });
  const text = new File(['not a photo'], 'IMG_1.jpg');
  expect(await later.take(text, 'K')).toMatchObject({ state: 'refused', name: 'IMG_1.jpg' });
  expect(later.state.get().missed).toMatchObject({ plot: '203' });
});

test('a plan that changes meanwhile leaves the person at the same plot', async () => {
  const session = await testBrowser().open();
  const trial = await session.openTrial();
  await trial.create(samplePlan(), 'K');
  const day = await openDay(session);
  await day.goTo(4);
  await trial.editPhotoRules((rules) => ({ ...rules, walk: { ...rules.walk, startColumn: 'last' } }), {
    who: 'K',
    why: 'from the other side',
  });
  await expect.poll(() => day.state.get().at).not.toBe(4);
  const { stops, at } = day.state.get();
  expect(stops[at]!.plot.plot).toBe('204');
});
