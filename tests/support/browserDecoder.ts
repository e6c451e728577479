import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { fileURLToPath } from 'node:url';
import { chromium } from '@playwright/test';
import { build } from 'vite';
import type { DecodeResult } from '../../src/core/photo-file/decodeResult.ts';
import type { DecoderVerdict } from '../../src/core/photo-file/decoderSelfTest.ts';
import { BROWSER_FLAGS, findBrowser } from './browser.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** What the browser made of a file: its pixels, or why not. */
export type BrowserPixels =
  | { readonly ok: true; readonly widthPx: number; readonly heightPx: number; readonly data: Buffer }
  | Extract<DecodeResult, { ok: false }>;

export interface BrowserDecoder {
  readonly version: string;
  decode(bytes: Uint8Array): Promise<BrowserPixels>;
  selfTest(): Promise<DecoderVerdict>;
  close(): Promise<void>;
}

/** The page's own decoding, `workers/decodePhoto.ts`, in a module worker of a real Chromium. */
export async function openBrowserDecoder(): Promise<BrowserDecoder> {
  const workerScript = await bundle();
  const server = createServer((request, response) => {
    const isScript = request.url === '/worker.js';
    response.setHeader('content-type', isScript ? 'text/javascript' : 'text/html');
    response.end(isScript ? workerScript : '<!doctype html><title>decoder</title>');
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { executablePath, env } = await findBrowser();
  const browser = await chromium.launch({
    executablePath,
    args: BROWSER_FLAGS,
    env: { ...(process.env as Record<string, string>), ...env },
  });
  const page = await browser.newPage();
  await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
  await page.evaluate(() => {
    const worker = new Worker('/worker.js', { type: 'module' });
    Object.assign(window, {
      decodeInWorker: (base64: string) =>
        new Promise((resolve, reject) => {
          worker.onmessage = ({ data }) => resolve(data);
          worker.onerror = (event) => reject(new Error(event.message));
          worker.postMessage(base64);
        }),
    });
  });
  // biome-ignore lint/suspicious/noExplicitAny: the function put there above
  const ask = (base64: string) => page.evaluate((text) => (window as any).decodeInWorker(text), base64);
  return {
    version: browser.version(),
    async decode(bytes) {
      const result = await ask(Buffer.from(bytes).toString('base64'));
      return result.ok ? { ...result, data: Buffer.from(result.data, 'base64') } : result;
    },
    selfTest: () => ask('self-test'),
    async close() {
      await browser.close();
      server.close();
    },
  };
}

/** A worker that answers base64 with base64, so that bytes travel through Playwright's protocol. */
async function bundle(): Promise<string> {
  const entry = 'virtual:decoder-worker';
  const output = await build({
    root,
    configFile: false,
    logLevel: 'error',
    plugins: [
      {
        name: 'decoder-worker',
        resolveId: (id) => (id === entry ? `\0${entry}` : undefined),
        load: (id) =>
          id === `\0${entry}`
            ? `import { decodePhoto, decodePicture } from '${root}workers/decodePhoto.ts';
               import { decoderSelfTest } from '${root}src/core/photo-file/decoderSelfTest.ts';
               onmessage = async ({ data }) => {
                 if (data === 'self-test') return postMessage(await decoderSelfTest(decodePicture));
                 const file = Uint8Array.from(atob(data), (c) => c.charCodeAt(0));
                 const result = await decodePhoto(file);
                 if (!result.ok) return postMessage(result);
                 const { widthPx, heightPx, data: pixels } = result.raster;
                 let text = '';
                 for (let i = 0; i < pixels.length; i += 8192) text += String.fromCharCode(...pixels.subarray(i, i + 8192));
                 postMessage({ ok: true, widthPx, heightPx, data: btoa(text) });
               };`
            : undefined,
      },
    ],
    build: {
      write: false,
      minify: false,
      target: 'es2022',
      rollupOptions: { input: entry, output: { format: 'es' } },
    },
  });
  const [result] = [output].flat();
  if (!result || !('output' in result)) throw new Error('the decoder was not bundled');
  return result.output[0].code;
}
