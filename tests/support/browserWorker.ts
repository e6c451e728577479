import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { chromium, type Page } from '@playwright/test';
import { build } from 'vite';
import { kernelsPlugin } from '../../src/setup/kernelsPlugin.mjs';
import { BROWSER_FLAGS, findBrowser } from './browser.mjs';

/** A module worker in a page of a real Chromium, asked by messages. */
export interface BrowserWorker {
  readonly version: string;
  readonly page: Page;
  /** Posts a message; answers the next one. @throws Error if the worker dies */
  ask<Answer>(message: unknown): Promise<Answer>;
  close(): Promise<void>;
}

export interface BrowserWorkerOptions {
  /** Files the worker may fetch, by the name after "/files/". @default none */
  readonly files?: Readonly<Record<string, string>>;
  /** A production build, as users get it. @default false */
  readonly minify?: boolean;
}

/** Bundles a worker's source file, serves it on this machine and starts it in a headless browser. */
export async function openBrowserWorker(
  sourceFile: string,
  { files = {}, minify = false }: BrowserWorkerOptions = {},
): Promise<BrowserWorker> {
  const script = await bundle(sourceFile, minify);
  const server = createServer(async (request, response) => {
    const file = files[decodeURIComponent(request.url ?? '').replace('/files/', '')];
    response.setHeader('content-type', request.url === '/worker.js' ? 'text/javascript' : 'text/html');
    response.end(file ? await readFile(file) : request.url === '/worker.js' ? script : '<!doctype html>');
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
      askWorker: (message: unknown) =>
        new Promise((resolve, reject) => {
          worker.onmessage = ({ data }) => resolve(data);
          worker.onerror = (event) => reject(new Error(event.message));
          worker.postMessage(message);
        }),
    });
  });
  return {
    version: browser.version(),
    page,
    ask: (message) =>
      // biome-ignore lint/suspicious/noExplicitAny: the function put there above
      page.evaluate((text) => (window as any).askWorker(text), message),
    async close() {
      await browser.close();
      server.close();
    },
  };
}

async function bundle(sourceFile: string, minify: boolean): Promise<string> {
  const output = await build({
    configFile: false,
    logLevel: 'error',
    plugins: [kernelsPlugin()],
    build: {
      write: false,
      minify,
      target: 'es2022',
      rollupOptions: { input: sourceFile, output: { format: 'es' } },
    },
  });
  const [result] = [output].flat();
  if (!result || !('output' in result)) throw new Error(`${sourceFile} was not bundled`);
  return result.output[0].code;
}
