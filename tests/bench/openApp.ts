import { fileURLToPath } from 'node:url';
import { type Browser, chromium, type Page } from '@playwright/test';
import { preview } from 'vite';
import { BROWSER_FLAGS, findBrowser } from '../support/browser.mjs';

const project = fileURLToPath(new URL('../../', import.meta.url));

export interface OpenApp {
  readonly browser: Browser;
  readonly page: Page;
  close(): Promise<void>;
}

/** The built page in a fresh headless browser. @param cores what the page is told the machine has */
export async function openApp(cores: number): Promise<OpenApp> {
  const server = await preview({
    configFile: `${project}src/vite.config.ts`,
    logLevel: 'error',
    // a build made elsewhere may be measured as it is
    ...(process.env.SWARDBOOK_DIST && { build: { outDir: process.env.SWARDBOOK_DIST } }),
    preview: { port: 0, host: '127.0.0.1' },
  });
  const { executablePath, env } = await findBrowser();
  const browser = await chromium.launch({
    executablePath,
    args: BROWSER_FLAGS,
    env: { ...process.env, ...env } as Record<string, string>,
  });
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.addInitScript((value) => {
    Object.defineProperty(navigator, 'hardwareConcurrency', { get: () => value });
    Object.defineProperty(navigator, 'deviceMemory', { get: () => 8 });
  }, cores);
  await page.goto(server.resolvedUrls!.local[0]!);
  return {
    browser,
    page,
    async close() {
      await browser.close();
      await server.close();
    },
  };
}

/** Hands files to the page and waits until all are measured. @returns seconds from handing over to the last figure */
export async function measureInApp(page: Page, files: readonly string[]): Promise<number> {
  const bars = 'main [role="img"][aria-label^="Cover:"]';
  const before = await page.locator(bars).count();
  const picker = page.getByLabel(/^(Open|Add) photos$/).and(page.locator('input[type=file]'));
  const started = performance.now();
  await picker.first().setInputFiles([...files]);
  // looked at seldom and cheaply, for looking takes time from what is measured
  await page.waitForFunction(
    ({ bars, wanted }) => document.querySelectorAll(bars).length >= wanted,
    { bars, wanted: before + files.length },
    { polling: 50, timeout: 600_000 },
  );
  return (performance.now() - started) / 1000;
}
