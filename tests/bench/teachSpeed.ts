import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { openBrowserWorker } from '../support/browserWorker.ts';
import { sharedPath } from '../support/sharedFolder.ts';
import { median } from './median.ts';
import { PHOTOS } from './photoSpeed.ts';
import type { TeachStagesAnswer, TeachStagesRequest } from './teachStages.worker.ts';

/** How quick teaching is on one 12-megapixel photo, as multiples of the browser's own decode. */
export interface TeachSpeed {
  readonly photo: string;
  readonly browser: string;
  readonly decodeMs: number;
  /** JPEG to cover by a taught model. */
  readonly taughtInDecodes: number;
  /**
   * From a new stroke among 36 to the stage of a 1440 x 900 window painted, planes cached: strokes read, model taught,
   * fitted, drawn, painted. Handing the labels to the page and its next frame come on top.
   */
  readonly previewInDecodes: number;
  /** The same by all cells. */
  readonly wholeInDecodes: number;
  readonly cells: TeachStagesAnswer['cells'];
}

const REPEATS = 9;

/** @returns null where the 12-megapixel photos are not on this machine */
export async function measureTeachSpeed(): Promise<TeachSpeed[] | null> {
  const folder = sharedPath('sample-photos/bench');
  if (!folder || !existsSync(folder)) return null;
  const worker = await openBrowserWorker(fileURLToPath(new URL('./teachStages.worker.ts', import.meta.url)), {
    files: Object.fromEntries(Object.keys(PHOTOS).map((name) => [`${name}.jpg`, `${folder}/${name}.jpg`])),
    minify: true,
  });
  const results: TeachSpeed[] = [];
  try {
    for (const [name, corners] of Object.entries(PHOTOS)) {
      const answer = await worker.ask<TeachStagesAnswer>({
        photo: `${name}.jpg`,
        repeats: REPEATS,
        frame: { corners, sizeMm: [1000, 1000] },
      } satisfies TeachStagesRequest);
      const decodeMs = median(answer.bareDecodeMs);
      results.push({
        photo: name,
        browser: worker.version,
        decodeMs,
        taughtInDecodes: median(answer.taughtMs) / decodeMs,
        previewInDecodes: median(answer.strokeMs.preview) / decodeMs,
        wholeInDecodes: median(answer.strokeMs.whole) / decodeMs,
        cells: answer.cells,
      });
    }
  } finally {
    await worker.close();
  }
  return results;
}

/** A line a photo. */
export const teachSpeedTable = (results: readonly TeachSpeed[]): string =>
  results
    .map(
      ({ photo, browser, decodeMs, taughtInDecodes, previewInDecodes, wholeInDecodes, cells }) =>
        `${photo}, ${browser}: decode ${decodeMs.toFixed(0)} ms = 1; taught, JPEG to cover ${taughtInDecodes.toFixed(2)}; ` +
        `stroke to preview of ${cells.preview} cells ${previewInDecodes.toFixed(2)}, to all ${cells.whole} cells ${wholeInDecodes.toFixed(2)}`,
    )
    .join('\n');
