import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { openBrowserWorker } from '../support/browserWorker.ts';
import { sharedPath } from '../support/sharedFolder.ts';
import type { CheckAnswer, CheckRequest } from './check.worker.ts';
import { median } from './median.ts';

/** How long a 12-megapixel photo takes from its file to frame, card and verdict in a browser worker. */
export interface CheckSpeed {
  readonly photo: string;
  readonly browser: string;
  /** Median of the browser's own decode in the same worker, warm. */
  readonly decodeMs: number;
  /** Multiples of `decodeMs`. */
  readonly readBack: number;
  readonly check: number;
  readonly total: number;
  readonly found: boolean;
}

const REPEATS = 9;
const PHOTOS = ['bench-overcast.jpg', 'bench-sun.jpg'];

/** @returns null where the photos are not on this machine */
export async function measureCheckSpeed(): Promise<readonly CheckSpeed[] | null> {
  const folder = sharedPath('sample-photos/bench');
  if (!folder || !existsSync(folder)) return null;
  const worker = await openBrowserWorker(fileURLToPath(new URL('./check.worker.ts', import.meta.url)), {
    files: Object.fromEntries(PHOTOS.map((photo) => [photo, `${folder}/${photo}`])),
    minify: true,
  });
  try {
    const results: CheckSpeed[] = [];
    for (const photo of PHOTOS) {
      const answer = await worker.ask<CheckAnswer>({ photo, repeats: REPEATS } satisfies CheckRequest);
      const decodeMs = median(answer.bareDecodeMs);
      results.push({
        photo,
        browser: worker.version,
        decodeMs,
        readBack: median(answer.readBackMs) / decodeMs,
        check: median(answer.checkMs) / decodeMs,
        total: median(answer.totalMs) / decodeMs,
        found: answer.found,
      });
    }
    return results;
  } finally {
    await worker.close();
  }
}

export const checkSpeedTable = (results: readonly CheckSpeed[]): string =>
  results
    .map(
      ({ photo, browser, decodeMs, readBack, check, total, found }) =>
        `${photo}, ${browser}: decode ${decodeMs.toFixed(0)} ms = 1; read back ${readBack.toFixed(2)}, frame, card and verdict ` +
        `${check.toFixed(2)}, in all ${total.toFixed(2)}; frame ${found ? 'found' : 'not found'}`,
    )
    .join('\n');
