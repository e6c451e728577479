import type { Page } from '@playwright/test';
import { addPhotos, expect, measured, openCover } from './app.ts';

/** The stage on which classes are corrected. */
export const stageOf = (page: Page) => page.getByRole('group', { name: /to be corrected/ });

/** Adds a photo, waits for its figures and opens it to be corrected. */
export async function openCorrecting(page: Page, photo: string): Promise<void> {
  await addPhotos(page, [photo]);
  await measured(page, 1);
  await openCover(page, photo);
  await page.getByRole('button', { name: 'Correct by hand' }).click();
  await ready(page);
}

/** Waits until the classes are there. */
export async function ready(page: Page): Promise<void> {
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Correct by hand');
  await expect(page.getByRole('status').filter({ hasText: /^Cover:/ })).toHaveCount(1);
}

/** From shares of the photo's sides to places on the page. */
export async function placesOn(page: Page): Promise<(x: number, y: number) => readonly [number, number]> {
  const box = (await stageOf(page).boundingBox())!;
  const scale = Math.min(box.width / 1000, box.height / 750);
  const left = box.x + (box.width - 1000 * scale) / 2;
  const top = box.y + (box.height - 750 * scale) / 2;
  return (x, y) => [left + x * 1000 * scale, top + y * 750 * scale];
}

/** Waits until so many gestures are in the store. */
export const storedGestures = (page: Page, count: number) =>
  expect(
    page.getByText(
      count === 0 ? 'Nothing corrected yet.' : `${count} gesture${count === 1 ? '' : 's'} stored.`,
      { exact: true },
    ),
  ).toBeVisible();

/** Chooses what is painted. */
export const choose = (page: Page, name: string) =>
  page.getByRole('radio', { name: new RegExp(`^${name}`) }).check();

/** Cover shown now, in percent, by the sentence a screen reader is told. */
export async function cover(page: Page): Promise<string> {
  const told = page.getByRole('status').filter({ hasText: /^Cover:/ });
  await expect(told).toHaveCount(1);
  return (await told.textContent())!;
}
