import { expect, test } from 'vitest';
import { FixedPlaces, type PlaceOnDate } from '../../../src/app/session/fixedPlaces.ts';
import { ObservableValue } from '../../../src/app/session/observable.ts';
import type { PhotoSummary } from '../../../src/app/session/session.ts';
import { patchCover } from '../../../src/core/frame/patchCover.ts';
import { measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import { encodeCorrections } from '../../../src/core/mask/correctionBytes.ts';
import { emptyCorrections } from '../../../src/core/mask/correctionLayer.ts';
import type { LabelMask } from '../../../src/core/raster/labelMask.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import { MemoryDatabase } from '../../../src/storage/memoryDatabase.ts';
import { addPhoto, FACTS, FRAME, newFigure, stored, storeOver } from '../../storage/support.ts';

const SIZE = { widthPx: FACTS.widthPx, heightPx: FACTS.heightPx };
/** Ryegrass all over, as the automatic mask of every photo. */
const allRyegrass = (): LabelMask => ({
  ...SIZE,
  labels: new Uint8Array(SIZE.widthPx * SIZE.heightPx).fill(1),
});

test('dates of a place are compared by the corrected mask where there is one, and it is said which', async () => {
  const store = storeOver(new MemoryDatabase());
  const ids: string[] = [];
  for (const ratingDate of ['2027-04-12', '2027-05-17']) {
    const id = await addPhoto(store, `${ratingDate}_101.jpg`, { ratingDate, frame: FRAME });
    await stored(store.jobs.claim(id, id));
    const settings = { classes: DEFAULT_CLASSES, frame: FRAME, ignored: [], neutral: null };
    await stored(store.jobs.finish(id, id, FACTS, newFigure({ settings })));
    ids.push(id);
  }
  const photos = new ObservableValue<readonly PhotoSummary[]>([]);
  await store.observeOverview(
    (overview) => photos.set(overview.photos),
    (error) => {
      throw error;
    },
  );
  // one tile inside the frame, 64 x 64 pixels of the second date, painted bare ground
  const layer = emptyCorrections(SIZE.widthPx, SIZE.heightPx);
  layer.tiles.set(5 * 16 + 7, new Uint8Array(64 * 64).fill(3));
  await stored(
    store.corrections.keep({
      ...{ photoId: ids[1]!, revision: 0, sequence: 1, gesture: 'brush', by: 'K', forgotten: [] },
      layer: encodeCorrections(layer).buffer,
      classIds: DEFAULT_CLASSES.map(({ id }) => id),
      patch: new ArrayBuffer(8),
    }),
  );
  const places = new FixedPlaces(
    { store, photos, mask: async () => allRyegrass() },
    {
      patchCover: async ({ mask, settings, corners, grid }) =>
        patchCover(mask, measuredArea(SIZE.widthPx, SIZE.heightPx, settings), corners, 3, grid),
      terminate: () => {},
    },
  );
  const on = (index: number): PlaceOnDate => ({
    photo: photos.get().find(({ id }) => id === ids[index])!,
    corners: FRAME.corners,
  });
  const grid = { columns: 1, rows: 1 };
  const answer = await places.compare(on(0), on(1), grid);
  expect(answer).toMatchObject({ state: 'done', corrected: { before: false, after: true } });
  if (answer.state !== 'done') return;
  const bare = answer.change.classes[2]!;
  expect(bare.coverFractionBefore).toBe(0);
  // 4096 of some 349,000 pixels, each weighted by the ground it stands for
  expect(bare.coverFractionAfter).toBeGreaterThan(0.011);
  expect(bare.coverFractionAfter).toBeLessThan(0.013);
});
