import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { decodePhoto } from '../../src/cli/decodePhoto.ts';
import { type MeasureSettings, measurePhoto } from '../../src/core/cover/measurePhoto.ts';
import { photoPoint, type Quadrilateral } from '../../src/core/geometry/points.ts';
import { DEFAULT_CLASSES } from '../../src/core/trial/defaultClasses.ts';
import { type BrowserWorker, openBrowserWorker } from '../support/browserWorker.ts';
import { firstDifference } from '../support/firstDifference.ts';
import type { MeasureQuestion } from '../support/measurePhoto.worker.ts';

interface SamplePhoto {
  readonly photo: string;
  readonly frame: readonly (readonly [number, number])[];
  readonly frameSizeMm: readonly [number, number];
  readonly greyCard: readonly [number, number, number, number] | null;
}

interface BrowserAnswer {
  readonly ok: true;
  readonly cover: unknown;
  readonly flags: unknown;
  readonly modelId: string;
  readonly labels: string;
}

const samples: SamplePhoto[] = JSON.parse(await readFile('sample-images/photos.json', 'utf8')).photos;
const withCard = samples.find(({ greyCard }) => greyCard)!;
const plain = samples.find(({ photo }) => photo.endsWith('2027-07-26_201.jpg'))!;

const settingsOf = ({ frame, frameSizeMm, greyCard }: SamplePhoto): MeasureSettings => ({
  classes: DEFAULT_CLASSES,
  frame: {
    corners: frame.map(([x, y]) => photoPoint(x, y)) as unknown as Quadrilateral<'photo'>,
    sizeMm: frameSizeMm,
  },
  ignored: [[photoPoint(300, 300), photoPoint(340, 310), photoPoint(320, 350)]],
  neutral: greyCard,
});

describe('page and command line give a photo the same labels and the same cover', () => {
  let browser: BrowserWorker;
  beforeAll(async () => {
    browser = await openBrowserWorker(
      fileURLToPath(new URL('../support/measurePhoto.worker.ts', import.meta.url)),
      { minify: true },
    );
  }, 120_000);
  afterAll(() => browser?.close());

  const cases: [name: string, bytes: () => Promise<Buffer>, settings: MeasureSettings][] = [
    ['framed, with a grey card', () => readFile(`sample-images/${withCard.photo}`), settingsOf(withCard)],
    ['framed', () => readFile(`sample-images/${plain.photo}`), settingsOf(plain)],
    [
      'framed, small gaps by a rule',
      () => readFile(`sample-images/${plain.photo}`),
      {
        ...settingsOf(plain),
        gapRule: { kind: 'small-patches-to-surroundings', smallerThanMm: 10 },
      },
    ],
    [
      'whole photo, Display P3, on its side',
      () =>
        sharp(`sample-images/${plain.photo}`)
          .withIccProfile('p3')
          .withMetadata({ orientation: 6 })
          .jpeg({ quality: 92 })
          .toBuffer(),
      { classes: DEFAULT_CLASSES, frame: null, ignored: [], neutral: null },
    ],
  ];

  test.each(cases)('%s', async (_name, read, settings) => {
    const bytes = await read();
    const decoded = await decodePhoto(bytes);
    if (!decoded.ok) throw new Error(decoded.problem.code);
    const result = await measurePhoto(decoded.raster, settings);
    if (!result.ok) throw new Error(result.problem.code);
    const question: MeasureQuestion = { photo: bytes.toString('base64'), settings };
    const answer = await browser.ask<BrowserAnswer>(question);
    const { mask, cover, flags, modelId } = result.measurement;
    expect(firstDifference(mask.labels, Buffer.from(answer.labels, 'base64'))).toBeNull();
    expect({ cover: answer.cover, flags: answer.flags, modelId: answer.modelId }).toEqual({
      cover,
      flags,
      modelId,
    });
  });
});
