import { readFile } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { heldPhotos, placePhotos } from '../../../src/app/session/placePhotos.ts';
import type { PhotoSummary } from '../../../src/app/session/session.ts';
import { assignmentReasonText } from '../../../src/core/text/trial.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import { writePlotLabel } from '../../../src/core/trial/plotLabel.ts';
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
  replaced: null,
  exported: false,
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

const label = (plot: string, trial = 'K7QF3M') =>
  writePlotLabel({ trial, plot, place: null, ratingDate: null });
const DAY = '2027-05-17';

test('photos of two trials mixed: those of this one find their plots, the others are held and say whose they are', () => {
  const photos = sampleTrial.walkingOrder.flatMap((plot, index) => {
    const takenAt = `${DAY}T10:${String(10 + index)}`;
    return [
      photo(`ours ${plot}`, { takenAt: `${takenAt}:00`, labelTexts: [label(plot)] }),
      photo(`theirs ${plot}`, { takenAt: `${takenAt}:30`, labelTexts: [label(plot, 'ZZ9XT4')] }),
    ];
  });
  const placed = placePhotos(samplePlan(), rules, photos);
  for (const plot of sampleTrial.walkingOrder) {
    expect(placed.photos.get(`ours ${plot}`)).toMatchObject({ plot, certainty: 'certain' });
    const { certainty, reasons } = placed.photos.get(`theirs ${plot}`)!;
    expect(certainty).toBe('doubtful');
    expect(reasons.map(assignmentReasonText).join(' ')).toContain(`another trial (ZZ9XT4, plot ${plot})`);
  }
});

test('a photo without a time or with one of another century finds its plot by its label, and its date by hand', () => {
  const timeless = photo('IMG_1', { labelTexts: [label('101')] });
  expect(placePhotos(samplePlan(), rules, [timeless]).photos.get('IMG_1')).toMatchObject({
    plot: '101',
    ratingDate: null,
    certainty: 'doubtful',
    reasons: [{ code: 'by-label' }, { code: 'date-unknown' }],
  });
  const at = (unreadableTime: string) => {
    const camera = { device: null, utcOffsetMinutes: null, unreadableTime };
    const wrongClock = photo('IMG_2', { camera, labelTexts: [label('101')] });
    return placePhotos(samplePlan(), rules, [wrongClock]).photos.get('IMG_2')!;
  };
  for (const time of ['1970:01:01 00:00:07', '1926:05:14 09:00:00'])
    expect(at(time)).toMatchObject({ plot: '101', ratingDate: null, certainty: 'doubtful' });
  expect(at('1970:01:01 00:00:07').reasons.at(-1)).toMatchObject({ date: '1970-01-01' });
  expect(at('1926:05:14 09:00:00').reasons.map(assignmentReasonText).join(' ')).toContain(
    '1926:05:14 09:00:00',
  );
});

test('two phones of two makes and two time zones on one walk each are told apart', () => {
  const walk = (device: string, utcOffsetMinutes: number, hour: number) =>
    sampleTrial.walkingOrder.map((plot, index) =>
      photo(`${device} ${plot}`, {
        name: `IMG_${1001 + index}.jpg`,
        camera: { device, utcOffsetMinutes },
        takenAt: `${DAY}T${hour}:${String(10 + index)}:00`,
      }),
    );
  // the same quarter of an hour, on clocks two hours apart
  const photos = [...walk('Maker A', 600, 10), ...walk('Maker B', 480, 8)];
  const placed = placePhotos(samplePlan(), { ...rules, orderTrusted: true }, photos);
  for (const { id } of photos) expect(placed.photos.get(id)?.plot).toBe(id.split(' ').at(-1));
});

test('once nothing is measured any more, labels are looked for, and the plot of one is written down', async () => {
  let reads = 0;
  const session = await testBrowser({
    startLabelWorker: () => ({
      async read() {
        reads += 1;
        return { ok: true, texts: [label('203')] };
      },
      terminate() {},
      onDeath() {},
    }),
  }).open();
  const trial = await session.openTrial();
  await trial.create(samplePlan(), 'K');
  const jpeg = new Uint8Array(await readFile(SAMPLE));
  await session.addFiles([new File([jpeg], 'IMG_0007.jpg')]);
  await expect.poll(() => session.photos.get()[0]?.namedBy).toBe('label');
  expect(session.photos.get()[0]).toMatchObject({
    plot: '203',
    ratingDate: DAY,
    labelTexts: [label('203')],
    work: null,
  });
  expect(trial.labels.get()).toEqual({ waiting: 0, trouble: null });
  expect(reads).toBe(1);
  await session.close();
});

test('a photo whose label turns out to be of another trial loses the plot that the walk gave it', async () => {
  const browser = testBrowser({
    startLabelWorker: () => ({
      read: async () => ({ ok: true, texts: [label('101', 'ZZ9XT4')] }),
      terminate() {},
      onDeath() {},
    }),
  });
  const session = await browser.open();
  const jpeg = new Uint8Array(await readFile(SAMPLE));
  const [added] = await session.addFiles([new File([jpeg], 'IMG_0007.jpg')]);
  const { photoId: id } = added as { photoId: string };
  await session.changePhoto(id, { plot: '101', namedBy: 'walking-order' });
  const trial = await session.openTrial();
  await trial.create(samplePlan(), 'K');
  await expect.poll(() => session.photos.get()[0]?.labelTexts).toEqual([label('101', 'ZZ9XT4')]);
  await expect.poll(() => session.photos.get()[0]?.plot).toBe(null);
  expect([...heldPhotos(trial.photos.get())]).toEqual([id]);
  await session.close();
});

const SAMPLE = new URL('../../../sample-images/photos/2027-05-17_101.jpg', import.meta.url);
