import { expect, test } from 'vitest';
import { ObservableValue } from '../../../src/app/session/observable.ts';
import type { PlacedTrialPhoto } from '../../../src/app/session/placePhotos.ts';
import type { PhotoSummary } from '../../../src/app/session/session.ts';
import { photosToRead, TrialLabels } from '../../../src/app/session/trialLabels.ts';
import type { LabelOutcome } from '../../../workers/labelApi.ts';

const photo = (id: string, facts: Partial<PhotoSummary> = {}) =>
  ({ id, work: null, labelTexts: null, ...facts }) as PhotoSummary;

const placed = (photoId: string, facts: Partial<PlacedTrialPhoto>): [string, PlacedTrialPhoto] => [
  photoId,
  {
    photo: photoId,
    plot: '101',
    place: 1,
    ratingDate: '2027-05-17',
    certainty: 'certain',
    probability: 1,
    reasons: [],
    byPerson: false,
    ...facts,
  },
];

test('a plot in the name is believed until a label has turned up; what a person said always is', () => {
  const byName = { reasons: [{ code: 'by-file-name', pattern: '{plot}' }] } as const;
  const places = [
    placed('named', byName),
    placed('doubtful name', { ...byName, certainty: 'doubtful' }),
    placed('walked', { reasons: [{ code: 'by-walking-order', position: 1, of: 2 }] }),
    placed('by hand', { byPerson: true }),
    placed('read', {}),
  ];
  const photos = places.map(([id]) => photo(id, { labelTexts: id === 'read' ? [] : null }));
  expect(photosToRead(photos, new Map(places))).toEqual(['doubtful name', 'walked']);
  const labelled = placed('read', { reasons: [{ code: 'by-label' }] });
  expect(photosToRead(photos, new Map([...places, labelled]))).toEqual(['named', 'doubtful name', 'walked']);
});

test('after twenty photos without a label only doubtful ones are still looked at', () => {
  const byWalk = { reasons: [{ code: 'by-walking-order', position: 1, of: 2 }] } as const;
  const places = [placed('walked', byWalk), placed('doubtful', { certainty: 'doubtful' })];
  const read = (count: number) =>
    Array.from({ length: count }, (_, index) => photo(`read ${index}`, { labelTexts: [] }));
  const unread = places.map(([id]) => photo(id));
  expect(photosToRead([...read(19), ...unread], new Map(places))).toEqual(['walked', 'doubtful']);
  expect(photosToRead([...read(20), ...unread], new Map(places))).toEqual(['doubtful']);
});

function setUp(ids: readonly string[], read: (call: number) => Promise<LabelOutcome>) {
  const photos = new ObservableValue<readonly PhotoSummary[]>(ids.map((id) => photo(id)));
  const kept: (readonly [string, readonly string[]])[] = [];
  const told = { started: 0, ended: 0, calls: 0, deaths: [] as ((detail: string) => void)[] };
  const labels = new TrialLabels({
    photos,
    store: {
      photos: {
        bytes: async () => new ArrayBuffer(1),
        async keepLabel(id: string, texts: readonly string[]) {
          kept.push([id, texts]);
          return { written: true, value: true };
        },
      },
    } as never,
    startWorker() {
      told.started += 1;
      return {
        read: () => read(told.calls++),
        terminate() {
          told.ended += 1;
        },
        onDeath: (listener) => void told.deaths.push(listener),
      };
    },
    settle: () => {},
    onError: (error) => {
      throw error;
    },
  });
  return { photos, kept, told, labels };
}

test('nothing is read while photos are measured; the worker goes when all are read', async () => {
  const { photos, kept, told, labels } = setUp(['a', 'b'], async () => ({ ok: true, texts: [] }));
  photos.set([photo('a'), photo('b', { work: 'running' })]);
  labels.want(['a', 'b']);
  await new Promise((resolve) => setTimeout(resolve));
  expect(told.started).toBe(0);
  expect(labels.state.get().waiting).toBe(2);
  photos.set([photo('a'), photo('b')]);
  await expect.poll(() => told.ended).toBe(1);
  expect(kept).toEqual([
    ['a', []],
    ['b', []],
  ]);
  expect(labels.state.get()).toEqual({ waiting: 0, trouble: null });
  expect(told.started).toBe(1);
});

test('a worker that dies over a photo is started once more for the next; after two deaths it is said', async () => {
  const never = new Promise<LabelOutcome>(() => {});
  const { kept, told, labels } = setUp(['a', 'b', 'c'], () => never);
  labels.want(['a', 'b', 'c']);
  await expect.poll(() => told.deaths.length).toBe(1);
  told.deaths[0]!('out of memory');
  await expect.poll(() => told.deaths.length).toBe(2);
  told.deaths[1]!('out of memory');
  await expect.poll(() => labels.state.get().trouble).toBe('out of memory');
  expect(told.started).toBe(2);
  expect(kept).toEqual([]);
  expect(labels.state.get().waiting).toBe(1);
});

test('a photo that this browser cannot show has no label', async () => {
  const { kept, labels } = setUp(['a'], async () => ({ ok: false }));
  labels.want(['a']);
  await expect.poll(() => kept).toEqual([['a', []]]);
});
