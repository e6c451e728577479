import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { archiveOf, newStore } from '../support/archives.ts';
import { addSample, correctSample, countSample, teachOnSample } from '../support/measuredStore.ts';
import { swardbook } from '../support/swardbook.ts';

let folder: string;
let archive: Uint8Array<ArrayBuffer>;
let doctored: Uint8Array<ArrayBuffer>;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'swardbook-verify-'));
  const store = newStore('a');
  const taught = await teachOnSample('2027-05-17_101.jpg');
  await addSample(store, '2027-04-12_101.jpg');
  const corrected = await addSample(store, '2027-05-17_102.jpg', taught);
  await correctSample(store, corrected, taught);
  await countSample(store, corrected);
  archive = (await archiveOf(store)).file;
  // a figure that somebody improved by a tenth of a percentage point
  const [figure] = (await store.archive.contents()).figures.filter(({ method }) => method === 'automatic');
  const {
    id: _id,
    photoId,
    current: _current,
    measuredAt: _at,
    measuredBy: _by,
    correctionsSha256: _own,
    ...said
  } = figure!;
  const cover = said.cover.map((share, index) => ({
    ...share,
    coverFraction: share.coverFraction + [0.001, -0.001, 0][index]!,
  }));
  await store.figures.keep(photoId, { ...said, method: 'automatic', cover }, null);
  doctored = (await archiveOf(store)).file;
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function verified(file: Uint8Array, ...more: string[]) {
  const path = join(await mkdtemp(join(folder, 'archive-')), 'trial.zip');
  await writeFile(path, file);
  return swardbook('verify', path, ...more);
}

describe.concurrent('swardbook verify', () => {
  it('makes figures of every kind again, from the photos, to the same label bytes', async () => {
    const { code, stdout } = await verified(archive, '--jobs', '1');
    expect(stdout).toContain('automatic: 2 of 2 figures match to 0.01 percentage points');
    expect(stdout).toContain('corrected: 1 of 1 figure match to 0.01 percentage points');
    expect(stdout).toContain('points: 1 of 1 figure match to 0.01 percentage points');
    expect(stdout).toContain('masks: 2 of 2 equal byte by byte');
    expect(stdout).toContain('largest difference: 0 percentage points');
    expect(code).toBe(0);
  });

  it('names a figure that is not what the photo says, with exit code 1', async () => {
    const { code, stdout } = await verified(doctored);
    expect(stdout).toContain('automatic: 2 of 3 figures match');
    expect(stdout).toContain('differs by 0.100 percentage points');
    expect(code).toBe(1);
  });

  it('refuses in words what is no archive, with exit code 2', async () => {
    expect(await verified(new TextEncoder().encode('turf'))).toMatchObject({
      code: 2,
      stderr: expect.stringContaining('This is no archive'),
    });
    expect(await verified(archive.subarray(0, archive.length / 2))).toMatchObject({
      code: 2,
      stderr: expect.stringContaining('The file has no end'),
    });
  });

  it('names a photo whose bytes were changed, with exit code 1', async () => {
    const damaged = archive.slice();
    // the first photo stands at the beginning of the file, not packed
    damaged[40_000]! ^= 255;
    const { code, stdout } = await verified(damaged);
    expect(stdout).toContain(
      '2027-04-12_101.jpg: the photo is missing or damaged, so 1 figure cannot be made again',
    );
    expect(stdout).toContain('automatic: 1 of 1 figure match');
    expect(code).toBe(1);
  });
});
