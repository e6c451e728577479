import fc from 'fast-check';
import { importArchive, inspectArchive } from '../../src/app/session/archive/importArchive.ts';
import { sha256Of } from '../../src/app/session/sha256Of.ts';
import { writeArchiveManifest } from '../../src/core/exchange/archiveManifest.ts';
import type { ProjectStore } from '../../src/storage/projectStore.ts';
import { zipWriter } from '../../src/zip/zipWriter.ts';
import { addPhoto, FACTS, newFigure, newPhoto, stored } from '../storage/support.ts';
import { archiveNow, archiveOf, giveBackMemory, newStore, openBytes, opened } from './archives.ts';

/** A store with two measured photos, corrections and strokes, and the archive of it. */
export async function smallArchive(): Promise<Uint8Array<ArrayBuffer>> {
  const store = newStore('a');
  for (const name of ['2027-05-17_101.jpg', '2027-05-17_102.jpg']) {
    const sha256 = await sha256Of(new Uint8Array(newPhoto(name).bytes));
    const id = await addPhoto(store, name, { sha256 });
    await stored(store.jobs.claim(id, 'run'));
    await stored(store.jobs.finish(id, 'run', FACTS, newFigure()));
    await stored(
      store.corrections.keep({
        photoId: id,
        revision: 0,
        layer: new Uint8Array([1, 2, 3]).buffer,
        classIds: ['ryegrass', 'weedy-grass', 'bare-ground'],
        sequence: 1,
        gesture: 'brush',
        patch: new Uint8Array([4, 5]).buffer,
        by: 'K',
        forgotten: [],
      }),
    );
    await stored(store.photos.change(id, { plot: '103' }, 'K'));
  }
  return (await archiveOf(store)).file;
}

/** The archive with its files changed and all check sums put right: what a forger would write. */
export async function rebuilt(
  file: Uint8Array<ArrayBuffer>,
  change: (path: string, bytes: Uint8Array<ArrayBuffer>) => Uint8Array<ArrayBuffer> | null,
): Promise<Uint8Array<ArrayBuffer>> {
  const archive = await opened(file);
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  const out = new WritableStream<Uint8Array>({ write: (piece) => void pieces.push(new Uint8Array(piece)) });
  const zip = zipWriter(out, archiveNow());
  const files = [];
  for (const { path } of archive.manifest.files) {
    const read = await archive.file(path);
    const bytes = read.ok ? change(path, read.bytes) : null;
    if (!bytes) continue;
    await zip.add(path, bytes, false);
    files.push({ path, bytes: bytes.length, sha256: await sha256Of(bytes) });
  }
  const manifest = new TextEncoder().encode(writeArchiveManifest({ ...archive.manifest, files }));
  await zip.add('manifest.json', manifest, false);
  await zip.close();
  return new Uint8Array(await new Blob(pieces).arrayBuffer());
}

/** What came of an archive that was tampered with. */
export interface Fate {
  readonly state: 'refused' | 'taken';
}

/**
 * Opens a tampered archive and takes it into a store that has a photo already.
 *
 * @throws Error if anything is half done: an exception, a photo without its bytes, a record that cannot be read, a change of
 *   what was there
 */
export async function fateOf(file: Uint8Array<ArrayBuffer>): Promise<Fate> {
  const store = newStore('z');
  await addPhoto(store, 'own.jpg');
  const before = await stateOf(store);
  const opening = await openBytes(file);
  const result = opening.ok ? await inspectArchive(store, opening.archive) : null;
  if (!result?.ok) {
    if ((await stateOf(store)) !== before) throw new Error('a refused archive changed the store');
    return { state: 'refused' };
  }
  const imported = await importArchive(store, result.inspection, new Map(), {
    by: 'K',
    reason: 'test',
    giveBackMemory,
  });
  if (!imported.ok) throw new Error(`not taken in: ${JSON.stringify(imported.problem)}`);
  const { photos, settings } = await store.archive.contents();
  for (const { id, name, sha256 } of photos) {
    const bytes = await store.photos.bytes(id);
    if (!bytes) throw new Error(`${name} has no bytes`);
    const isOwn = name === 'own.jpg';
    if (!isOwn && (await sha256Of(new Uint8Array(bytes))) !== sha256)
      throw new Error(`${name} has other bytes`);
  }
  if (settings.some(({ name }) => name === 'archive-staged')) throw new Error('something is still staged');
  if (store.unreadable().length > 0) throw new Error(`unreadable: ${JSON.stringify(store.unreadable())}`);
  if (!photos.some(({ name }) => name === 'own.jpg')) throw new Error('the photo that was here is gone');
  return { state: 'taken' };
}

const stateOf = async (store: ProjectStore): Promise<string> =>
  JSON.stringify(await store.archive.contents());

/** Bytes changed, lost or put in anywhere. */
const damage = (length: number) =>
  fc.array(
    fc.oneof(
      fc.record({
        kind: fc.constant('flip' as const),
        at: fc.nat(length - 1),
        with: fc.integer({ min: 1, max: 255 }),
      }),
      fc.record({ kind: fc.constant('cut' as const), at: fc.nat(length - 1), with: fc.nat(200) }),
      fc.record({ kind: fc.constant('insert' as const), at: fc.nat(length - 1), with: fc.nat(255) }),
      fc.record({ kind: fc.constant('end' as const), at: fc.nat(length - 1), with: fc.constant(0) }),
    ),
    { minLength: 1, maxLength: 4 },
  );

function damaged(
  file: Uint8Array<ArrayBuffer>,
  steps: readonly { readonly kind: string; readonly at: number; readonly with: number }[],
): Uint8Array<ArrayBuffer> {
  let bytes = [...file];
  for (const step of steps) {
    if (step.kind === 'flip' && step.at < bytes.length) bytes[step.at]! ^= step.with;
    else if (step.kind === 'cut') bytes.splice(step.at, step.with);
    else if (step.kind === 'insert') bytes.splice(step.at, 0, step.with);
    else if (step.kind === 'end') bytes = bytes.slice(0, step.at);
  }
  return Uint8Array.from(bytes);
}

/** Seeded archives with damaged bytes. @returns how many were refused and taken */
export async function tryDamaged(runs: number, seed: number): Promise<{ refused: number; taken: number }> {
  const file = await smallArchive();
  const count = { refused: 0, taken: 0 };
  await fc.assert(
    fc.asyncProperty(damage(file.length), async (steps) => {
      count[(await fateOf(damaged(file, steps))).state] += 1;
    }),
    { numRuns: runs, seed },
  );
  return count;
}

/** Seeded archives whose tables say other things, with check sums that fit. @returns how many were refused and taken */
export async function tryForged(runs: number, seed: number): Promise<{ refused: number; taken: number }> {
  const file = await smallArchive();
  const archive = await opened(file);
  const tables: string[] = [];
  for (const { path } of archive.manifest.files.filter((one) => one.path.startsWith('data/'))) {
    const read = await archive.file(path);
    if (read.ok && JSON.parse(new TextDecoder().decode(read.bytes)).records.length > 0) tables.push(path);
  }
  const count = { refused: 0, taken: 0 };
  const forgery = fc.record({
    path: fc.constantFrom(...tables),
    record: fc.nat(5),
    field: fc.nat(20),
    value: fc.oneof(fc.jsonValue(), fc.constant(undefined), fc.constant('a1'), fc.constant('__proto__')),
  });
  await fc.assert(
    fc.asyncProperty(fc.array(forgery, { minLength: 1, maxLength: 3 }), async (forgeries) => {
      const forged = await rebuilt(file, (path, bytes) => {
        const own = forgeries.filter((one) => one.path === path);
        if (own.length === 0) return bytes;
        const table = JSON.parse(new TextDecoder().decode(bytes));
        for (const { record, field, value } of own) {
          const target = table.records[record % Math.max(1, table.records.length)] ?? table;
          const names = Object.keys(target);
          const name = names[field % names.length]!;
          if (value === undefined) delete target[name];
          else target[name] = value;
        }
        return new TextEncoder().encode(JSON.stringify(table));
      });
      count[(await fateOf(forged)).state] += 1;
    }),
    { numRuns: runs, seed },
  );
  return count;
}
