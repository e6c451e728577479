import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { archiveOf, newStore } from '../support/archives.ts';
import { addSample, correctSample, countSample, teachOnSample } from '../support/measuredStore.ts';
import { swardbook } from '../support/swardbook.ts';
import { samplePhotos } from './samplePhotos.ts';

export interface ArchiveVerification {
  readonly photos: number;
  readonly exitCode: number | null;
  readonly seconds: number;
  readonly said: string;
  /** Percentage points. */
  readonly largestDifference: number;
  readonly masks: number;
  readonly sameMasks: number;
}

/**
 * Measures the sample trial, one date of it by a taught model, corrects and counts some photos, saves the archive and has
 * the command line verify it.
 */
export async function verifySampleTrial(): Promise<ArchiveVerification> {
  const store = newStore('a');
  const taught = await teachOnSample('2027-05-17_101.jpg');
  const names = samplePhotos().map((path) => basename(path));
  for (const [index, name] of names.entries()) {
    const model = name.startsWith('2027-05-17') ? taught : null;
    const photo = await addSample(store, name, model);
    if (index % 8 === 0) await correctSample(store, photo, model);
    if (index % 8 === 4) await countSample(store, photo);
  }
  const folder = mkdtempSync(join(tmpdir(), 'swardbook-verify-'));
  try {
    const path = join(folder, 'trial.zip');
    writeFileSync(path, (await archiveOf(store)).file);
    const started = performance.now();
    const { code, stdout } = await swardbook('verify', path);
    const masks = /masks: (\d+) of (\d+)/.exec(stdout);
    return {
      photos: names.length,
      exitCode: code,
      seconds: (performance.now() - started) / 1000,
      said: stdout.replaceAll(path, 'trial.zip'),
      largestDifference: Number(/largest difference: (\S+)/.exec(stdout)?.[1] ?? Number.NaN),
      sameMasks: Number(masks?.[1]),
      masks: Number(masks?.[2]),
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
