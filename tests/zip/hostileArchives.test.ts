import { beforeAll, describe, expect, it } from 'vitest';
import { zipWriter } from '../../src/zip/zipWriter.ts';
import { archiveNow, openBytes, opened } from '../support/archives.ts';
import { fateOf, rebuilt, smallArchive, tryDamaged, tryForged } from '../support/mutatedArchives.ts';

let archive: Uint8Array<ArrayBuffer>;
beforeAll(async () => {
  archive = await smallArchive();
});

const text = (words: string) => new TextEncoder().encode(words);

async function zipOf(files: Readonly<Record<string, Uint8Array<ArrayBuffer>>>, compress = false) {
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  const out = new WritableStream<Uint8Array>({ write: (piece) => void pieces.push(new Uint8Array(piece)) });
  const zip = zipWriter(out, archiveNow());
  for (const [path, bytes] of Object.entries(files)) await zip.add(path, bytes, compress);
  await zip.close();
  return new Uint8Array(await new Blob(pieces).arrayBuffer());
}

const problemOf = async (file: Uint8Array<ArrayBuffer>) => {
  const opening = await openBytes(file);
  return opening.ok ? null : opening.problem;
};

/** The manifest of the small archive with some of it changed. */
async function withManifest(
  change: (manifest: Record<string, unknown>) => void,
): Promise<Uint8Array<ArrayBuffer>> {
  const manifest = JSON.parse(JSON.stringify((await opened(archive)).manifest));
  Object.assign(manifest, { type: 'swardbook-archive', version: 1 });
  change(manifest);
  return zipOf({ 'manifest.json': text(JSON.stringify(manifest)) });
}

describe('an archive that is not to be trusted', () => {
  it('is told from what is no archive, and from half of one', async () => {
    expect(await problemOf(text('turf'))).toEqual({ code: 'not-a-zip' });
    expect(await problemOf(new Uint8Array())).toEqual({ code: 'not-a-zip' });
    expect(await problemOf(archive.slice(0, archive.length / 2))).toEqual({ code: 'cut-off' });
    expect(await problemOf(await zipOf({ 'notes.txt': text('turf') }))).toEqual({ code: 'foreign' });
    expect(await problemOf(await withManifest((manifest) => (manifest.type = 'other')))).toEqual({
      code: 'foreign',
    });
  });

  it('is refused when a newer version wrote it', async () => {
    expect(await problemOf(await withManifest((manifest) => (manifest.version = 2)))).toEqual({
      code: 'newer-version',
      of: 'archive',
      met: 2,
      newest: 1,
    });
    expect(await problemOf(await withManifest((manifest) => (manifest.databaseVersion = 99)))).toMatchObject({
      code: 'newer-version',
      of: 'database',
    });
  });

  it.each(['../outside.txt', '/etc/outside', 'photos/../../outside', 'photos\\..\\outside', 'C:outside'])(
    'is refused when it names %s',
    async (path) => {
      const problem = await problemOf(await zipOf({ 'manifest.json': text('{}'), [path]: text('x') }));
      expect(['unsafe-path', 'zip-damaged']).toContain(problem?.code);
    },
  );

  it('is refused when it is a bomb', async () => {
    const bomb = await zipOf(
      { 'manifest.json': text('{}'), 'photos/a.jpg': new Uint8Array(8 * 2 ** 20) },
      true,
    );
    expect(await problemOf(bomb)).toMatchObject({ code: 'too-dense', path: 'photos/a.jpg' });
  });

  it('does not unpack more than an entry declares', async () => {
    const file = await zipOf({ 'manifest.json': new Uint8Array(500_000).fill(32) }, true);
    // the declared length of the only entry, in the central directory, made small
    const view = new DataView(file.buffer);
    for (let at = 0; at < file.length - 4; at += 1) {
      if (view.getUint32(at, true) === 0x02014b50) view.setUint32(at + 24, 10, true);
    }
    expect(await problemOf(file)).toMatchObject({ code: 'zip-damaged' });
  });

  it('leaves out a photo that is damaged and takes the others', async () => {
    const forged = await rebuilt(archive, (path, bytes) =>
      path === 'photos/2027-05-17_101.jpg' ? text('x') : bytes,
    );
    expect(await fateOf(forged)).toEqual({ state: 'taken' });
    const without = await rebuilt(archive, (path, bytes) =>
      path === 'photos/2027-05-17_101.jpg' ? null : bytes,
    );
    expect(await fateOf(without)).toEqual({ state: 'taken' });
  });

  // thousands of each: npm run bench -- archive
  it('is refused or taken whole, whatever bytes are damaged', async () => {
    const { refused, taken } = await tryDamaged(40, 1);
    expect(refused + taken).toBeGreaterThanOrEqual(40);
    expect(refused).toBeGreaterThan(10);
  });

  it('is refused or taken whole, whatever its tables say', async () => {
    const { refused, taken } = await tryForged(12, 2);
    expect(refused + taken).toBeGreaterThanOrEqual(12);
    expect(taken).toBeGreaterThan(3);
  });
});
