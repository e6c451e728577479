import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { writePlotLabel } from '../../src/core/trial/plotLabel.ts';
import { openBrowserWorker } from '../support/browserWorker.ts';
import { type LaidLabel, photoWithLabels } from '../support/labelPictures.ts';
import { seededRandom } from '../support/seededRandom.ts';
import type { LabelsAnswer, LabelsRequest } from './labels.worker.ts';
import { samplePhotos } from './samplePhotos.ts';

/**
 * Labels laid into 12-MP photos. A code of 60 mm (29 modules with its margin) has 10 pixels a module in a photo that shows
 * 0.85 m across, 7 in one of 1.2 m, 5 in one of 1.7 m and 3.5 in one of 2.4 m.
 */
const CASES: readonly { readonly name: string; readonly label: Omit<LaidLabel, 'text' | 'turnDegrees'> }[] = [
  { name: '10 px a module, flat', label: { modulePx: 10, tiltDegrees: 0, shadow: 1, blurPx: 1 } },
  {
    name: '10 px, tilted 30 degrees, edge of shade',
    label: { modulePx: 10, tiltDegrees: 30, shadow: 0.45, blurPx: 1 },
  },
  { name: '7 px, flat', label: { modulePx: 7, tiltDegrees: 0, shadow: 1, blurPx: 1 } },
  { name: '7 px, flat, edge of deep shade', label: { modulePx: 7, tiltDegrees: 0, shadow: 0.35, blurPx: 1 } },
  { name: '7 px, tilted 30 degrees', label: { modulePx: 7, tiltDegrees: 30, shadow: 1, blurPx: 1 } },
  {
    name: '7 px, tilted 50 degrees, edge of shade',
    label: { modulePx: 7, tiltDegrees: 50, shadow: 0.45, blurPx: 1 },
  },
  { name: '5 px, flat', label: { modulePx: 5, tiltDegrees: 0, shadow: 1, blurPx: 1 } },
  {
    name: '5 px, tilted 30 degrees, edge of shade',
    label: { modulePx: 5, tiltDegrees: 30, shadow: 0.45, blurPx: 1 },
  },
  { name: '3.5 px, flat', label: { modulePx: 3.5, tiltDegrees: 0, shadow: 1, blurPx: 1 } },
  { name: '3.5 px, tilted 30 degrees', label: { modulePx: 3.5, tiltDegrees: 30, shadow: 1, blurPx: 1 } },
];
const REPEATS = 4;

export interface LabelsResult {
  readonly cases: readonly { readonly name: string; readonly read: number; readonly of: number }[];
  /** Of photos in which no label was found, which take every look. */
  readonly withoutMs: number;
  readonly foundMs: number;
  readonly loadMs: number;
  readonly decodeMs: number;
  /** Texts read that are not what was laid. */
  readonly wrong: number;
}

/** How many labels are read in made-up photos, and how long that takes in a browser's worker. */
export async function measureLabels(): Promise<LabelsResult> {
  const folder = mkdtempSync(join(tmpdir(), 'swardbook-labels-'));
  const files: Record<string, string> = {
    'zxing_reader.wasm': createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm'),
  };
  const random = seededRandom(20270517);
  const photos = samplePhotos();
  const truth: { readonly file: string; readonly name: string; readonly text: string | null }[] = [];
  for (const { name, label } of [...CASES, { name: 'no label', label: null }]) {
    for (let repeat = 0; repeat < REPEATS; repeat += 1) {
      const plot = String(101 + Math.floor(random() * 300));
      const text = writePlotLabel({ trial: 'K7QF3M', plot, place: null, ratingDate: null });
      const labels = label ? [{ ...label, text, turnDegrees: 360 * random() }] : [];
      const photo = photos[Math.floor(random() * photos.length)]!;
      const file = `${truth.length}.jpg`;
      writeFileSync(join(folder, file), await photoWithLabels(basename(photo), 4000, labels, truth.length));
      files[file] = join(folder, file);
      truth.push({ file, name, text: label && text });
    }
  }
  const worker = await openBrowserWorker(fileURLToPath(new URL('labels.worker.ts', import.meta.url)), {
    files,
    minify: true,
  });
  try {
    const request: LabelsRequest = { photos: truth.map(({ file }) => file) };
    const { decodeMs, loadMs, photos: answers } = await worker.ask<LabelsAnswer>(request);
    const isRead = (index: number) => answers[index]!.texts.includes(truth[index]!.text ?? '');
    const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1] ?? 0;
    const times = (found: boolean) =>
      median(answers.flatMap(({ texts, ms }) => (texts.length > 0 === found ? [ms] : [])));
    return {
      cases: CASES.map(({ name }) => {
        const own = truth.flatMap((one, index) => (one.name === name ? [index] : []));
        return { name, read: own.filter(isRead).length, of: own.length };
      }),
      wrong: answers.reduce(
        (sum, { texts }, index) => sum + texts.filter((text) => text !== truth[index]!.text).length,
        0,
      ),
      foundMs: times(true),
      withoutMs: times(false),
      loadMs,
      decodeMs,
    };
  } finally {
    await worker.close();
    rmSync(folder, { recursive: true });
  }
}

export function labelsTable({ cases, wrong, foundMs, withoutMs, loadMs, decodeMs }: LabelsResult): string {
  const ms = (value: number) => `${value.toFixed(0)} ms (${(value / decodeMs).toFixed(1)} x decode)`;
  return [
    'Plot labels read in rendered 12-MP photos',
    ...cases.map(({ name, read, of }) => `  ${String(read).padStart(2)} of ${of}  ${name}`),
    `  ${wrong} read wrongly`,
    `  a photo with a label ${ms(foundMs)}, without one ${ms(withoutMs)}; starting the reader once ${loadMs.toFixed(0)} ms`,
  ].join('\n');
}
