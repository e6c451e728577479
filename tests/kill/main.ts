import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { type BrowserContext, chromium, type Page } from '@playwright/test';
import { preview } from 'vite';
import { coverOfMask } from '../../src/core/cover/coverOfMask.ts';
import { areaOfMask } from '../../src/core/mask/areaOfMask.ts';
import { formatPercent } from '../../src/core/text/format.ts';
import { BROWSER_FLAGS, findBrowser } from '../support/browser.mjs';
import { seededRandom } from '../support/seededRandom.ts';
import { browserProcesses, killBrowser } from './processTree.ts';
import { layerOfPatches, maskWith, readStore, type StoredState } from './readStore.ts';
import { type StoreReport, watchStore } from './watchStore.ts';

const project = fileURLToPath(new URL('../../', import.meta.url));
const PHOTO = '2027-05-17_101';
/** A kill comes between these times after painting began, at random. */
const EARLIEST_KILL_MS = 400;
const LATEST_KILL_MS = 4000;

/** What the page told before it was killed. */
class Reports {
  /** Layers handed to the store, by revision. */
  readonly put = new Map<number, string>([[0, '']]);
  /** The newest revision whose transaction completed. */
  kept = 0;

  take({ kind, revision, layer }: StoreReport): void {
    if (kind === 'put') this.put.set(revision, layer);
    else this.kept = Math.max(this.kept, revision);
  }
}

/** Opens a browser on the profile, with the database watched. */
async function openBrowser(folder: string, address: string, reports: Reports) {
  const { executablePath, env } = await findBrowser();
  const context = await chromium.launchPersistentContext(folder, {
    executablePath,
    args: BROWSER_FLAGS,
    env: { ...process.env, ...env } as Record<string, string>,
    viewport: { width: 1280, height: 800 },
  });
  await context.exposeBinding('reportStore', (_source, report: StoreReport) => reports.take(report));
  await context.addInitScript(watchStore);
  const page = context.pages()[0] ?? (await context.newPage());
  await page.goto(address);
  return { context, page };
}

/** Takes a photo in and waits until its mask is stored. @returns the address where it is corrected */
async function takePhoto(page: Page): Promise<string> {
  const picker = page.getByLabel('Open photos').and(page.locator('input[type=file]'));
  await picker.setInputFiles(`${project}sample-images/photos/${PHOTO}.jpg`);
  await page
    .getByRole('main')
    .getByRole('img', { name: /^Cover:/ })
    .waitFor({ timeout: 90_000 });
  await page.getByRole('link', { name: `Show the cover of ${PHOTO}.jpg` }).click();
  await page.getByRole('button', { name: 'Correct by hand' }).click();
  await page.waitForURL(/\/correct$/);
  await told(page);
  return page.url();
}

/** The cover that a screen reader is told. */
async function told(page: Page): Promise<string> {
  const status = page.getByRole('status').filter({ hasText: /^Cover:/ });
  await status.waitFor({ state: 'attached', timeout: 60_000 });
  return (await status.textContent())!;
}

/** Paints, fills, undoes and does again until the browser is gone. */
async function paintOn(page: Page, random: () => number): Promise<void> {
  const stage = (await page.getByRole('group', { name: /to be corrected/ }).boundingBox())!;
  const place = () =>
    [
      stage.x + stage.width * (0.25 + 0.5 * random()),
      stage.y + stage.height * (0.25 + 0.5 * random()),
    ] as const;
  for (;;) {
    const act = random();
    if (act < 0.12) await page.keyboard.press('Control+z');
    else if (act < 0.18) await page.keyboard.press('Control+Shift+z');
    else {
      await page.keyboard.press(String(1 + Math.floor(3 * random())));
      await page.mouse.move(...place());
      await page.mouse.down();
      for (let i = 0; i < 4; i += 1) await page.mouse.move(...place(), { steps: 2 });
      await page.mouse.up();
    }
  }
}

/** What is wrong with a store after a kill; null where all is as it must be. */
async function examine(page: Page, stored: StoredState, reports: Reports): Promise<string | null> {
  const { revision, layer } = stored;
  if (revision < reports.kept) return `revision ${revision} is stored, ${reports.kept} had been kept`;
  const expected = reports.put.get(revision);
  if (expected === undefined) return `revision ${revision} is stored, which the page never told of`;
  if (stored.patches.length > 0 && layerOfPatches(stored) !== layer)
    return 'the gestures do not add up to the layer';
  const mask = maskWith(layer, stored, stored.settings.classes.length);
  const painted = maskWith(expected, stored, stored.settings.classes.length);
  const differing = mask.labels.findIndex((label, i) => label !== painted.labels[i]);
  if (differing >= 0)
    return `pixel ${differing} is ${mask.labels[differing]}, not ${painted.labels[differing]}`;
  // and the screen shows that mask
  const { settings } = stored;
  const cover = coverOfMask(mask, areaOfMask(mask, settings), settings.classes.length)!;
  const words = await told(page);
  const missing = settings.classes
    .map(({ name }, i) => `${name} ${formatPercent(cover[i]!.coverFraction)} %`)
    .find((part) => !words.includes(part));
  return missing === undefined ? null : `the screen says "${words}", the mask "${missing}"`;
}

/**
 * Corrects a mask and kills the browser's whole process tree in the middle of it, again and again on one profile; after
 * each restart the stored mask must be that of a gesture at or after the last one whose transaction had completed.
 */
export async function main(args: readonly string[]): Promise<number> {
  const { values } = parseArgs({
    args: [...args],
    options: { times: { type: 'string', default: '30' }, seed: { type: 'string', default: '1' } },
  });
  const times = Number(values.times);
  const random = seededRandom(Number(values.seed));
  const server = await preview({
    configFile: `${project}src/vite.config.ts`,
    logLevel: 'error',
    ...(process.env.SWARDBOOK_DIST && { build: { outDir: process.env.SWARDBOOK_DIST } }),
    preview: { port: 0, host: '127.0.0.1' },
  });
  const folder = await mkdtemp(join(tmpdir(), 'swardbook-kill-'));
  const reports = new Reports();
  let good = 0;
  let context: BrowserContext | null = null;
  try {
    let opened = await openBrowser(folder, server.resolvedUrls!.local[0]!, reports);
    context = opened.context;
    const address = await takePhoto(opened.page);
    for (let round = 1; round <= times; round += 1) {
      const before = reports.kept;
      const painting = paintOn(opened.page, random).catch(() => undefined);
      await new Promise((resolve) =>
        setTimeout(resolve, EARLIEST_KILL_MS + (LATEST_KILL_MS - EARLIEST_KILL_MS) * random()),
      );
      const killed = killBrowser(folder);
      await painting;
      await opened.context.close().catch(() => undefined);
      context = null;
      for (let i = 0; browserProcesses(folder).length > 0; i += 1) {
        if (i > 100) throw new Error('processes of the killed browser are still there');
        await new Promise((resolve) => setTimeout(resolve, 50));
      }
      const known = reports.kept;
      opened = await openBrowser(folder, address, reports);
      context = opened.context;
      await told(opened.page);
      const stored = await readStore(opened.page);
      const wrong = await examine(opened.page, stored, reports);
      if (wrong === null) good += 1;
      process.stdout.write(
        `kill ${round}: ${killed} processes, ${known - before} gestures kept, revision ${stored.revision}` +
          `${wrong === null ? '' : `, WRONG: ${wrong}`}\n`,
      );
      // what was handed over and lost with the kill will be handed over again under the same number
      for (const revision of reports.put.keys()) if (revision > stored.revision) reports.put.delete(revision);
      reports.kept = stored.revision;
      if (!reports.put.has(stored.revision)) reports.put.set(stored.revision, stored.layer);
    }
  } finally {
    await context?.close().catch(() => undefined);
    await server.close();
    await rm(folder, { recursive: true, force: true, maxRetries: 5 });
  }
  process.stdout.write(`${good} of ${times}\n`);
  return good === times ? 0 : 1;
}
