import { readdirSync, readFileSync } from 'node:fs';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  type BrowserContext,
  type BrowserContextOptions,
  test as base,
  chromium,
  expect,
  type Page,
} from '@playwright/test';
import { BROWSER_FLAGS, findBrowser } from '../support/browser.mjs';

export { expect } from '@playwright/test';

const samples = fileURLToPath(new URL('../../sample-images/photos/', import.meta.url));

/** Path of a sample photo. */
export const sample = (name: string) => join(samples, name);

/** A file as a file picker hands it over. */
export interface PickedFile {
  readonly name: string;
  readonly mimeType: string;
  readonly buffer: Buffer;
}

/** A file with the bytes of a sample photo under another name. */
export const sampleAs = async (name: string, as: string): Promise<PickedFile> => ({
  name: as,
  mimeType: 'image/jpeg',
  buffer: await readFile(sample(name)),
});

export const textFile = (name: string, text: string): PickedFile => ({
  name,
  mimeType: 'image/jpeg',
  buffer: Buffer.from(text),
});

/** A browser with a profile on disk, as a person has it: what is stored outlives the browser. */
export class Profile {
  readonly folder: string;
  readonly #baseURL: string;
  readonly #complaints: string[];
  #context: BrowserContext | null = null;

  constructor(folder: string, baseURL: string, complaints: string[]) {
    this.folder = folder;
    this.#baseURL = baseURL;
    this.#complaints = complaints;
  }

  /** Starts the browser and opens the page. */
  async open(options: BrowserContextOptions = {}, path = ''): Promise<Page> {
    const { executablePath, env } = await findBrowser();
    this.#context = await chromium.launchPersistentContext(this.folder, {
      executablePath,
      args: BROWSER_FLAGS,
      env: { ...process.env, ...env } as Record<string, string>,
      baseURL: this.#baseURL,
      viewport: { width: 1440, height: 900 },
      locale: 'en-GB',
      // the program is kept for use without a network only where a test is about that
      serviceWorkers: 'block',
      ...options,
    });
    this.#context.on('request', (request) => this.#checkOrigin(request.url()));
    this.#context.on('console', (message) => {
      if (message.type() === 'error') this.#complaints.push(`console: ${message.text()}`);
    });
    this.#context.on('weberror', (error) => this.#complaints.push(`uncaught: ${error.error().message}`));
    const page = this.#context.pages()[0] ?? (await this.#context.newPage());
    await page.goto(path);
    return page;
  }

  /** A second tab of the same browser. */
  async openTab(): Promise<Page> {
    const page = await this.#context!.newPage();
    await page.goto('');
    return page;
  }

  async close(): Promise<void> {
    await this.#context?.close();
    this.#context = null;
  }

  /** Kills every process of the browser at once, as a crash or a pulled plug does. Linux only. */
  async kill(): Promise<void> {
    const mine = (pid: string) => {
      try {
        return readFileSync(`/proc/${pid}/cmdline`, 'utf8').includes(this.folder);
      } catch {
        return false; // gone already
      }
    };
    for (const pid of readdirSync('/proc').filter((name) => /^\d+$/.test(name) && mine(name))) {
      process.kill(Number(pid), 'SIGKILL');
    }
    await this.#context?.close().catch(() => undefined);
    this.#context = null;
  }

  #checkOrigin(url: string): void {
    const { protocol, origin } = new URL(url);
    if (protocol === 'blob:' || protocol === 'data:') return;
    if (origin !== new URL(this.#baseURL).origin) this.#complaints.push(`request to another origin: ${url}`);
  }
}

/**
 * `profile` is a fresh browser profile, `page` the app opened in it at desk size. Every request of every test is
 * looked at: one to another origin fails the test, and so does an error on the console (a breach of the page's
 * security policy is one).
 */
export const test = base.extend<{ profile: Profile; complaints: string[] }>({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the fixtures a function needs from its pattern
  complaints: async ({}, use) => {
    const complaints: string[] = [];
    await use(complaints);
    expect(complaints).toEqual([]);
  },
  profile: async ({ baseURL, complaints }, use) => {
    const folder = await mkdtemp(join(tmpdir(), 'swardbook-e2e-'));
    const profile = new Profile(folder, baseURL!, complaints);
    await use(profile);
    await profile.close();
    await rm(folder, { recursive: true, force: true, maxRetries: 5 });
  },
  page: async ({ profile }, use) => {
    await use(await profile.open());
  },
});

/** Hands files to the page's picker. */
export async function addPhotos(page: Page, files: readonly (string | PickedFile)[]): Promise<void> {
  const picker = page.getByLabel('Open photos').and(page.locator('input[type=file]'));
  const picked = await Promise.all(
    files.map(async (file) => (typeof file === 'string' ? sampleAs(file, file) : file)),
  );
  await picker.setInputFiles(picked as never);
}

/** Waits until nothing is left to measure. */
export async function measured(page: Page, photos: number): Promise<void> {
  await expect(page.getByRole('main').getByRole('img', { name: /^Cover:/ })).toHaveCount(photos, {
    timeout: 90_000,
  });
}

/** Opens the Cover screen of a photo from the list and waits for its figures. */
export async function openCover(page: Page, name: string): Promise<void> {
  await page.getByRole('link', { name: `Show the cover of ${name}` }).click();
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  await expect(page.getByRole('main').getByRole('img', { name: /^Cover:/ })).toBeVisible();
}

/** The cover shown on the Cover screen, in words. */
export async function coverWords(page: Page): Promise<string> {
  return (await page
    .getByRole('main')
    .getByRole('img', { name: /^Cover:/ })
    .getAttribute('aria-label'))!;
}

/** The cover once nothing is being measured any more: what a screen reader is told then. */
export async function settledCover(page: Page): Promise<string> {
  const told = page.getByRole('status').filter({ hasText: /^Cover:/ });
  await expect(told).toHaveCount(1);
  return (await told.textContent())!;
}

/** How much of the mask layer is painted, 0..1. */
export async function paintedShare(page: Page): Promise<number> {
  return page.evaluate(() => {
    const layer = document.querySelectorAll<HTMLCanvasElement>('[role=group] > canvas')[1]!;
    const { data } = layer.getContext('2d')!.getImageData(0, 0, layer.width, layer.height);
    let painted = 0;
    for (let i = 3; i < data.length; i += 4) if (data[i]! > 0) painted += 1;
    return painted / (data.length / 4);
  });
}
