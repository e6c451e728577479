import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { decodePhoto } from '../../src/cli/decodePhoto.ts';
import { type BrowserWorker, openBrowserWorker } from '../support/browserWorker.ts';
import { type KernelComparison, kernelDifferences, randomPicture } from '../support/kernelDifferences.ts';
import type { KernelQuestion } from '../support/kernels.worker.ts';

const PHOTO = 'sample-images/photos/2027-07-26_201.jpg';

describe('kernels give the bytes of plain code, in Node and in the browser alike', () => {
  let browser: BrowserWorker;
  beforeAll(async () => {
    browser = await openBrowserWorker(
      fileURLToPath(new URL('../support/kernels.worker.ts', import.meta.url)),
      {
        files: { 'photo.jpg': PHOTO },
        minify: true,
      },
    );
  }, 120_000);
  afterAll(() => browser?.close());

  const asked = (question: KernelQuestion) => browser.ask<KernelComparison>(question);

  test.each([
    [61, 47, 1],
    [200, 133, 2],
    [333, 90, 3],
  ])('colours at random, %i x %i pixels', async (widthPx, heightPx, seed) => {
    const inNode = kernelDifferences(randomPicture(widthPx, heightPx, seed), seed);
    expect(inNode.differences).toEqual([]);
    expect(await asked({ widthPx, heightPx, seed })).toEqual(inNode);
  });

  test('a photo', async () => {
    const decoded = await decodePhoto(await readFile(PHOTO));
    if (!decoded.ok) throw new Error(decoded.problem.code);
    const inNode = kernelDifferences(decoded.raster, 4);
    expect(inNode.differences).toEqual([]);
    expect(await asked({ photo: 'photo.jpg', seed: 4 })).toEqual(inNode);
  }, 60_000);
});
