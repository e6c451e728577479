import { readFile } from 'node:fs/promises';
import { expect, test } from 'vitest';
import type { PhotoSummary } from '../../../src/app/session/session.ts';
import { heldPhotos, placePhotos } from '../../../src/app/session/trialPhotos.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import type { PhotoRules } from '../../../src/storage/records/trialRecords.ts';
import { samplePlan, sampleTrial } from '../../core/trial/samplePlan.ts';
import { testBrowser } from './testSession.ts';

const rules: PhotoRules = {
  fileNamePatterns: ['{date}_{plot}'],
  walk: { along: 'rows', turn: 'there-and-back', startRow: 'first', startColumn: 'first' },
  orderTrusted: false,
};

const photo = (id: string, facts: Partial<PhotoSummary> = {}): PhotoSummary => ({
  id,
  name: `${id}.jpg`,
  plot: null,
  place: null,
  ratingDate: null,
  namedBy: null,
  takenAt: null,
  camera: null,
  labelTexts: null,
  widthPx: 1000,
  heightPx: 750,
  frame: null,
  frameBy: null,
  offeredFrame: null,
  verdict: null,
  figure: null,
  figures: {},
  work: null,
  problem: null,
  stale: false,
  definitionChanged: false,
  classes: DEFAULT_CLASSES,
  gapRule: { kind: 'every-pixel' },
  modelId: null,
  modelSetAside: false,
  ...facts,
});

const stateOf = (placed: ReturnType<typeof placePhotos>, plot: string, date: string) =>
  placed.cells.find((cell) => cell.plot === plot && cell.ratingDate === date)?.state;

test('the board walks the sample trial in its order and finds every named photo', () => {
  const photos = sampleTrial.ratingDates.flatMap((date) =>
    sampleTrial.plots.map(({ plot }) => photo(`${date}_${plot}`)),
  );
  const placed = placePhotos(samplePlan(), rules, photos);
  expect(placed.plots).toEqual(sampleTrial.walkingOrder);
  expect(placed.ratingDates).toEqual(sampleTrial.ratingDates);
  expect(placed.cells.map(({ state }) => state)).toEqual(Array(64).fill('there'));
  expect(placed.unplaced).toEqual([]);
});

test('what a person said stands against the file name', () => {
  const moved = photo('2027-05-17_101', { namedBy: 'person', plot: '102', ratingDate: '2027-05-17' });
  const placed = placePhotos(samplePlan(), rules, [moved]);
  expect(stateOf(placed, '101', '2027-05-17')).toBe('missing');
  expect(stateOf(placed, '102', '2027-05-17')).toBe('there');
});

test('two photos of a cell are double until a person has put both there: then they are subsamples', () => {
  const [first, second] = [photo('2027-05-17_101'), photo('copy', { name: '2027-05-17_101.jpeg' })];
  expect(stateOf(placePhotos(samplePlan(), rules, [first, second]), '101', '2027-05-17')).toBe('double');
  const byHand = { namedBy: 'person', plot: '101', ratingDate: '2027-05-17' } as const;
  const both = [first, second].map((one) => ({ ...one, ...byHand }));
  expect(stateOf(placePhotos(samplePlan(), rules, both), '101', '2027-05-17')).toBe('there');
});

test('photos without a plot in their names go by the walk once the person vouches for its order', () => {
  const photos = sampleTrial.walkingOrder.map((_, index) =>
    photo(`IMG_${1001 + index}`, { takenAt: `2027-05-17T10:${String(10 + index)}:00` }),
  );
  const held = placePhotos(samplePlan(), rules, photos);
  expect(heldPhotos(held).size).toBe(16);
  const placed = placePhotos(samplePlan(), { ...rules, orderTrusted: true }, photos);
  expect(photos.map(({ id }) => placed.photos.get(id)?.plot)).toEqual(sampleTrial.walkingOrder);
  expect(heldPhotos(placed).size).toBe(0);
  const [first] = photos;
  expect(placed.photos.get(first!.id)?.reasons).toContainEqual({
    code: 'by-walking-order',
    position: 1,
    of: 16,
  });
});

test('a photo that a person put to no plot of this trial is held', () => {
  const lost = photo('a', { namedBy: 'person', plot: '999', ratingDate: '2027-05-17' });
  const placed = placePhotos(samplePlan(), rules, [lost]);
  expect(placed.unplaced).toEqual(['a']);
  expect([...heldPhotos(placed)]).toEqual(['a']);
  expect(placed.photos.get('a')).toMatchObject({ plot: null, certainty: 'doubtful' });
});

test('a plot found by its name in other letters is written down as the trial spells it', async () => {
  const session = await testBrowser().open();
  const trial = await session.openTrial();
  const plan = samplePlan();
  const spelled = {
    ...plan,
    plots: plan.plots.map((plot) => (plot.plot === '101' ? { ...plot, plot: 'N1' } : plot)),
  };
  expect(await trial.create(spelled, 'K')).toEqual({ ok: true });
  const jpeg = new Uint8Array(await readFile(SAMPLE));
  await session.addFiles([new File([jpeg], '2027-05-17_n1.jpg')]);
  await expect.poll(() => session.photos.get()[0]?.plot).toBe('N1');
  expect(session.photos.get()[0]).toMatchObject({ ratingDate: '2027-05-17', namedBy: 'file-name' });
  await session.close();
});

const SAMPLE = new URL('../../../sample-images/photos/2027-05-17_101.jpg', import.meta.url);
