import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { PlotFrame } from '../../src/core/geometry/plotFrame.ts';
import { photoPoint } from '../../src/core/geometry/points.ts';
import { openBrowserWorker } from '../support/browserWorker.ts';
import { sharedPath } from '../support/sharedFolder.ts';
import { median } from './median.ts';
import { renderersOf } from './process.ts';
import type { StagesAnswer, StagesRequest } from './stages.worker.ts';

/** How long one 12-megapixel photo takes from file to cover, as multiples of the browser's own decode. */
export interface PhotoSpeed {
  readonly photo: string;
  /** Whether frame and grey card were looked for first, as in a photo that was just added. */
  readonly find: boolean;
  readonly browser: string;
  readonly decodeMs: number;
  /** Medians as multiples of `decodeMs`. */
  readonly stages: Readonly<Record<string, number>>;
  readonly totalInDecodes: number;
  /** The same by processor time of the whole renderer process, all threads. */
  readonly processorInDecodes: number;
  readonly coverPercent: readonly number[];
}

const REPEATS = 9;
/** The 12-megapixel photos and the inner corners of their 1.0 m frame (hull of the truth mask, four corners). */
export const PHOTOS: Readonly<Record<string, PlotFrame['corners']>> = {
  'bench-overcast': [
    photoPoint(721, 231),
    photoPoint(3255, 257),
    photoPoint(3176, 2781),
    photoPoint(702, 2711),
  ],
  'bench-sun': [photoPoint(677, 278), photoPoint(3163, 266), photoPoint(3238, 2718), photoPoint(717, 2827)],
};

/** @returns null where the 12-megapixel photos are not on this machine */
export async function measurePhotoSpeed(): Promise<PhotoSpeed[] | null> {
  const folder = sharedPath('sample-photos/bench');
  if (!folder || !existsSync(folder)) return null;
  const worker = await openBrowserWorker(fileURLToPath(new URL('./stages.worker.ts', import.meta.url)), {
    files: Object.fromEntries(Object.keys(PHOTOS).map((name) => [`${name}.jpg`, `${folder}/${name}.jpg`])),
    minify: true,
  });
  const results: PhotoSpeed[] = [];
  try {
    const browser = worker.page.context().browser()!;
    const processor = async () => (await renderersOf(browser)).processorSeconds;
    const runs = [false, true].flatMap((find) =>
      Object.entries(PHOTOS).map(([name, corners]) => ({ name, corners, find })),
    );
    for (const { name, corners, find } of runs) {
      const request: StagesRequest = {
        photo: `${name}.jpg`,
        repeats: REPEATS,
        frame: { corners, sizeMm: [1000, 1000] },
        find,
      };
      const before = await processor();
      await worker.ask<StagesAnswer>({ ...request, decodeOnly: true });
      const between = await processor();
      const answer = await worker.ask<StagesAnswer>(request);
      const after = await processor();
      const decodeMs = median(answer.bareDecodeMs);
      const decodeSeconds = between - before;
      results.push({
        photo: name,
        find,
        browser: worker.version,
        decodeMs,
        stages: Object.fromEntries(
          Object.entries(answer.stages).map(([stage, values]) => [stage, median(values) / decodeMs]),
        ),
        totalInDecodes: median(answer.totalMs) / decodeMs,
        processorInDecodes: (after - between - decodeSeconds) / decodeSeconds,
        coverPercent: answer.coverPercent,
      });
    }
  } finally {
    await worker.close();
  }
  return results;
}

/** A line a photo. */
export const photoSpeedTable = (results: readonly PhotoSpeed[]): string =>
  results
    .map(({ photo, find, browser, decodeMs, stages, totalInDecodes, processorInDecodes }) => {
      const parts = Object.entries(stages).map(([stage, ratio]) => `${stage} ${ratio.toFixed(2)}`);
      return (
        `${photo}${find ? ', frame looked for' : ''}, ${browser}: decode ${decodeMs.toFixed(0)} ms = 1; ${parts.join(', ')}; ` +
        `in all ${totalInDecodes.toFixed(2)} (processor time ${processorInDecodes.toFixed(2)})`
      );
    })
    .join('\n');
