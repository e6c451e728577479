import { statSync, writeFileSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { sharedPath } from '../support/sharedFolder.ts';
import { type OpenApp, openApp } from './openApp.ts';
import { memoryMib, renderersOf } from './process.ts';
import { withVariants } from './variants.ts';

/** Resident memory of the renderer while a large archive is written and read, above what it was before, MiB. */
export interface ArchiveMemory {
  readonly archiveMb: number;
  readonly writingMib: number;
  readonly writingSeconds: number;
  readonly readingMib: number;
  readonly readingSeconds: number;
}

/** Photos of about 4 MB each: 200 MB together. */
const PHOTO_COUNT = 50;

/** Null where the photos or /proc are not there. */
export async function measureArchiveMemory(): Promise<ArchiveMemory | null> {
  const folder = sharedPath('sample-photos/bench');
  if (!folder || memoryMib([process.pid]) === null) return null;
  const large = [`${folder}/bench-overcast.jpg`, `${folder}/bench-sun.jpg`];
  const path = join(tmpdir(), `swardbook-archive-${process.pid}.zip`);
  try {
    return await withVariants(large, PHOTO_COUNT, async (files) => {
      const writing = await withApp(async (app) => {
        const { page } = app;
        await page
          .getByLabel('Open photos')
          .and(page.locator('input[type=file]'))
          .setInputFiles([...files]);
        await until(async () => (await storedPhotos(page)) === PHOTO_COUNT);
        await openReport(page);
        return peakWhile(app, async () => {
          const download = page.waitForEvent('download', { timeout: 600_000 });
          await page.getByRole('button', { name: 'Save archive' }).click();
          const saved = await download;
          await page.getByText(/^Saved: /).waitFor({ timeout: 600_000 });
          await saved.saveAs(path);
          return 0;
        });
      });
      const reading = await withApp(async (app) => {
        const { page } = app;
        await openReport(page);
        return peakWhile(app, async () => {
          await page.locator('input[type=file][accept*=zip]').setInputFiles(path);
          await page.getByRole('button', { name: 'Take in' }).click({ timeout: 600_000 });
          await page.getByText(/^Taken in: /).waitFor({ timeout: 600_000 });
          return storedPhotos(page);
        });
      });
      if (reading.value !== PHOTO_COUNT)
        throw new Error(`${reading.value} of ${PHOTO_COUNT} photos were taken in`);
      return {
        archiveMb: statSync(path).size / 1e6,
        writingMib: writing.aboveMib,
        writingSeconds: writing.seconds,
        readingMib: reading.aboveMib,
        readingSeconds: reading.seconds,
      };
    });
  } finally {
    await rm(path, { force: true });
  }
}

async function withApp<T>(use: (app: OpenApp) => Promise<T>): Promise<T> {
  const app = await openApp(2);
  try {
    // nothing is measured meanwhile: the archive alone is looked at
    await app.page.evaluate(pauseMeasuring);
    await app.page.reload();
    return await use(app);
  } finally {
    await app.close();
  }
}

async function pauseMeasuring(): Promise<void> {
  const isThere = async () => (await indexedDB.databases()).some(({ version = 0 }) => version > 1);
  while (!(await isThere())) await new Promise((resolve) => setTimeout(resolve, 50));
  const database = await new Promise<IDBDatabase>((resolve, reject) => {
    const opening = indexedDB.open('swardbook');
    opening.onsuccess = () => resolve(opening.result);
    opening.onerror = () => reject(opening.error);
  });
  await new Promise<void>((resolve, reject) => {
    const transaction = database.transaction('settings', 'readwrite');
    transaction.objectStore('settings').put({ name: 'measuring-paused', value: true });
    transaction.oncomplete = () => resolve();
    transaction.onerror = () => reject(transaction.error);
  });
  database.close();
}

const storedPhotos = (page: Page): Promise<number> =>
  page.evaluate(async () => {
    const database = await new Promise<IDBDatabase>((resolve) => {
      const opening = indexedDB.open('swardbook');
      opening.onsuccess = () => resolve(opening.result);
    });
    const count = await new Promise<number>((resolve) => {
      const counting = database.transaction('photos').objectStore('photos').count();
      counting.onsuccess = () => resolve(counting.result);
    });
    database.close();
    return count;
  });

async function openReport(page: Page): Promise<void> {
  // the picker for places of files cannot be driven headless; without it the archive goes to the browser's own file system
  await page.evaluate(() => Object.defineProperty(window, 'showSaveFilePicker', { value: undefined }));
  await page.evaluate(() => {
    location.hash = '#/report/files';
  });
  await page.getByRole('heading', { name: 'Save an archive' }).waitFor();
}

/** The highest resident memory while something is done, above what it was after a collection before. */
async function peakWhile<T>(
  { browser, page }: OpenApp,
  work: () => Promise<T>,
): Promise<{ value: T; aboveMib: number; seconds: number }> {
  const session = await page.context().newCDPSession(page);
  await session.send('HeapProfiler.collectGarbage');
  await page.waitForTimeout(1000);
  const { processIds } = await renderersOf(browser);
  // the kernel forgets the highest value so far
  for (const id of processIds) writeFileSync(`/proc/${id}/clear_refs`, '5');
  const before = memoryMib(processIds)!.now;
  const started = performance.now();
  const value = await work();
  const seconds = (performance.now() - started) / 1000;
  return { value, aboveMib: memoryMib(processIds)!.peak - before, seconds };
}

async function until(holds: () => Promise<boolean>): Promise<void> {
  for (let round = 0; round < 600; round += 1) {
    if (await holds()) return;
    await new Promise((resolve) => setTimeout(resolve, 500));
  }
  throw new Error('the photos were not taken in');
}
