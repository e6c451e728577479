import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { decodePhoto } from '../../src/cli/decodePhoto.ts';
import { type BrowserDecoder, openBrowserDecoder } from '../support/browserDecoder.ts';
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
});

/** The first byte that differs, in words that a failing test can show. */
function firstDifference(a: Uint8ClampedArray, b: Uint8Array): string | null {
  if (a.length !== b.length) return `${a.length} bytes against ${b.length}`;
  const at = a.findIndex((value, i) => value !== b[i]);
  return at < 0 ? null : `byte ${at}: ${a[at]} in Node, ${b[at]} in the browser`;
}
