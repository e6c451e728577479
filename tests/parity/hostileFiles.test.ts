import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { decodePhoto } from '../../src/cli/decodePhoto.ts';
import { type BrowserDecoder, openBrowserDecoder } from '../support/browserDecoder.ts';
import { firstDifference } from '../support/firstDifference.ts';
import { hostileFiles } from '../support/hostileFiles.ts';

const files = await hostileFiles();

describe('hostile files in the browser', () => {
  let browser: BrowserDecoder;
  beforeAll(async () => {
    browser = await openBrowserDecoder();
  }, 120_000);
  afterAll(() => browser?.close());

  test.each(files)('$name: $expected', async ({ bytes }) => {
    const inBrowser = await browser.decode(bytes);
    const inNode = await decodePhoto(bytes);
    if (inNode.ok && inBrowser.ok) {
      expect(firstDifference(inNode.raster.data, inBrowser.data)).toBeNull();
    } else {
      expect({ ok: inBrowser.ok, code: !inBrowser.ok && inBrowser.problem.code }).toEqual({
        ok: inNode.ok,
        code: !inNode.ok && inNode.problem.code,
      });
    }
  });
});
