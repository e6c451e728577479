import { readFile } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { decodePhoto, decodePicture } from '../../src/cli/decodePhoto.ts';
import { decoderSelfTest } from '../../src/core/photo-file/decoderSelfTest.ts';
import { type BrowserDecoder, openBrowserDecoder } from '../support/browserDecoder.ts';
import { firstDifference } from '../support/firstDifference.ts';
import { decodableFiles } from '../support/testPictures.ts';

const files = await decodableFiles();

describe('page and command line decode a photo to the same bytes', () => {
  let browser: BrowserDecoder;
  beforeAll(async () => {
    browser = await openBrowserDecoder();
  }, 120_000);
  afterAll(() => browser?.close());

  test.each(Object.entries(files))('%s', async (_name, bytes) => {
    const inNode = await decodePhoto(bytes);
    const inBrowser = await browser.decode(bytes);
    if (!inNode.ok || !inBrowser.ok) throw new Error(JSON.stringify({ inNode, inBrowser }));
    expect([inBrowser.widthPx, inBrowser.heightPx]).toEqual([inNode.raster.widthPx, inNode.raster.heightPx]);
    expect(firstDifference(inNode.raster.data, inBrowser.data)).toBeNull();
  });

  test('a photo of the sample trial', async () => {
    const bytes = await readFile('sample-images/photos/2027-06-21_302.jpg');
    const inNode = await decodePhoto(bytes);
    const inBrowser = await browser.decode(bytes);
    if (!inNode.ok || !inBrowser.ok) throw new Error(JSON.stringify({ inNode, inBrowser }));
    expect(firstDifference(inNode.raster.data, inBrowser.data)).toBeNull();
  });

  test('the self-test says so in both', async () => {
    expect(await decoderSelfTest(decodePicture)).toEqual({ state: 'same' });
    expect(await browser.selfTest()).toEqual({ state: 'same' });
  });
});
