import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import sharp from 'sharp';
import { median } from './median.ts';
import { openApp } from './openApp.ts';
import { samplePhotos } from './samplePhotos.ts';

/** Calling points in the built page, on a photo of 12 megapixels. */
export interface PointPace {
  readonly keys: number;
  /** From the key to the frame that shows the next point. */
  readonly medianMs: number;
  /** Nineteen of twenty are shown sooner. */
  readonly slowMs: number;
  readonly slowestMs: number;
  /** Calls in the database when the page is at rest. */
  readonly stored: number;
}

/** More than are pressed: a few of the grid's points fall on a grey card or beyond the frame. */
const COLUMNS = 11;
const KEYS_A_SECOND = 5;

export async function measurePointPace(): Promise<PointPace> {
  const { page, close } = await openApp(2);
  try {
    const buffer = await sharp(readFileSync(samplePhotos()[16]!))
      .resize(4000, 3000)
      .jpeg({ quality: 90 })
      .toBuffer();
    await page
      .getByLabel('Open photos')
      .and(page.locator('input[type=file]'))
      .setInputFiles({ name: '2027-05-17_101.jpg', mimeType: 'image/jpeg', buffer });
    await page
      .getByRole('main')
      .getByRole('img', { name: /^Cover:/ })
      .waitFor({ timeout: 120_000 });
    await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: 'Points' }).click();
    await page.getByRole('link', { name: 'Lay points' }).click();
    await page.getByLabel('Every photo').check();
    await page.getByLabel('Columns').fill(String(COLUMNS));
    await page.getByLabel('Columns').blur();
    await page.getByRole('button', { name: 'Lay these points' }).click();
    await page.getByRole('button', { name: 'Count', exact: true }).click();
    await page.getByLabel('Observer', { exact: true }).fill('K');
    await page.getByRole('button', { name: 'Call points' }).click();
    await page.locator('[data-point] canvas').waitFor();
    await watchKeys(page);
    const keys = 100;
    for (let key = 0; key < keys; key += 1) {
      await page.keyboard.press('rwb.'[key % 4]!);
      await page.waitForTimeout(1000 / KEYS_A_SECOND);
    }
    await page.getByRole('heading', { name: /^Point 101 of/ }).waitFor();
    const shown = await page.evaluate(() => (window as unknown as { shownMs: number[] }).shownMs);
    // calls are stored behind the points: all are there within a second, or are lost
    await page.waitForTimeout(1000);
    const sorted = [...shown].sort((a, b) => a - b);
    return {
      keys,
      medianMs: median(shown),
      slowMs: sorted[Math.floor(0.95 * sorted.length)]!,
      slowestMs: Math.max(...shown),
      stored: await countCalls(page),
    };
  } finally {
    await close();
  }
}

/** Notes for each key how long it takes until a frame with another point has been drawn. */
const watchKeys = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const shownMs: number[] = [];
    Object.assign(window, { shownMs });
    const point = () => document.querySelector<HTMLElement>('[data-point]')?.dataset.point;
    window.addEventListener('keydown', ({ timeStamp }) => {
      const before = (window as unknown as { lastPoint?: string }).lastPoint;
      const look = () => {
        if (point() === before) return void requestAnimationFrame(look);
        Object.assign(window, { lastPoint: point() });
        // after the frame was drawn
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => shownMs.push(performance.now() - timeStamp);
        port2.postMessage(null);
      };
      requestAnimationFrame(look);
    });
    Object.assign(window, { lastPoint: point() });
  });

const countCalls = (page: Page): Promise<number> =>
  page.evaluate(
    () =>
      new Promise<number>((resolve, reject) => {
        const opening = indexedDB.open('swardbook');
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const counting = opening.result.transaction('calls').objectStore('calls').count();
          counting.onsuccess = () => resolve(counting.result);
        };
      }),
  );
