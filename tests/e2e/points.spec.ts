import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';
import sharp from 'sharp';
import { mapPoint } from '../../src/core/geometry/homography.ts';
import { type PointSet, plotToPhoto } from '../../src/core/point-grid/pointSet.ts';
import { addPhotos, expect, measured, test } from './app.ts';
import { axeFindings } from './axe.ts';

const truthFolder = fileURLToPath(new URL('../../sample-images/truth/', import.meta.url));
const PHOTOS = ['2027-05-17_101.jpg', '2027-05-17_104.jpg', '2027-05-17_202.jpg'];

interface Stored {
  readonly photos: readonly { readonly id: string; readonly name: string }[];
  readonly pointSets: readonly { readonly id: string; readonly photoId: string; readonly set: PointSet }[];
  readonly calls: readonly {
    readonly pointSetId: string;
    readonly pointId: number;
    readonly observer: string;
    readonly classId: string | null;
    readonly calledAt: string;
  }[];
}

/** What the browser has stored of counts. */
const stored = (page: Page): Promise<Stored> =>
  page.evaluate(
    () =>
      new Promise<Stored>((resolve, reject) => {
        const opening = indexedDB.open('swardbook');
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const names = ['photos', 'pointSets', 'calls'] as const;
          const transaction = opening.result.transaction(names);
          const found: Record<string, unknown> = {};
          for (const name of names) {
            const all = transaction.objectStore(name).getAll();
            all.onsuccess = () => {
              found[name] = all.result;
            };
          }
          transaction.oncomplete = () => {
            opening.result.close();
            resolve(found as unknown as Stored);
          };
        };
      }),
  );

const part = (page: Page, name: string) =>
  page
    .getByRole('navigation', { name: 'Parts of the point counts' })
    .getByRole('link', { name, exact: true })
    .click();

/** Lays a small grid on every photo. */
async function layPoints(page: Page, columns: number, rows: number): Promise<void> {
  await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: 'Points' }).click();
  await part(page, 'Lay points');
  await page.getByLabel('Every photo').check();
  await page.getByLabel('Columns').fill(String(columns));
  await page.getByLabel('Rows').fill(String(rows));
  await page.getByLabel('Rows').blur();
  await expect(page.getByText(`${PHOTOS.length} photos.`)).toBeVisible();
  await page.getByRole('button', { name: 'Lay these points' }).click();
  await expect(page.getByText(`Points are laid on ${PHOTOS.length} photos.`)).toBeVisible();
}

async function startCalling(page: Page, observer: string): Promise<void> {
  await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: 'Points' }).click();
  await page.getByLabel('Observer', { exact: true }).fill(observer);
  await page.getByRole('button', { name: /^(Call points|Go on calling)$/ }).click();
  await expect(page.locator('[data-point] canvas')).toBeVisible();
}

const pointOnScreen = async (page: Page) =>
  page.evaluate(() => document.querySelector<HTMLElement>('[data-point]')?.dataset.point ?? null);

/** The key that the truth of a rendered photo asks for, by photo and point. */
async function trueKeys(page: Page): Promise<ReadonlyMap<string, ReadonlyMap<number, string>>> {
  const { photos, pointSets } = await stored(page);
  const keys = new Map<string, Map<number, string>>();
  for (const { id, photoId, set } of pointSets) {
    const { name } = photos.find((photo) => photo.id === photoId)!;
    const { data, info } = await sharp(readFileSync(truthFolder + name.replace('.jpg', '.png')))
      .raw()
      .toBuffer({ resolveWithObject: true });
    const toPhoto = plotToPhoto(set.extent, set.placedIn);
    const own = set.points.map(({ id: pointId, at }) => {
      const [x, y] = mapPoint<'plot', 'photo'>(toPhoto, at);
      const label = data[(Math.floor(y) * info.width + Math.floor(x)) * info.channels]!;
      return [pointId, '.rwb'[label]!] as const;
    });
    keys.set(id, new Map(own));
  }
  return keys;
}

/** Calls the photo on screen as the truth has it. Which photo it is shows only in what is stored of its first call. */
async function callByTruth(
  page: Page,
  keys: Awaited<ReturnType<typeof trueKeys>>,
  observer: string,
): Promise<void> {
  const before = (await stored(page)).calls.length;
  await page.keyboard.press('.');
  await expect.poll(async () => (await stored(page)).calls.length).toBe(before + 1);
  const newest = (await stored(page)).calls
    .filter((call) => call.observer === observer)
    .sort((a, b) => (a.calledAt < b.calledAt ? 1 : -1))[0]!;
  await page.keyboard.press('Backspace');
  const own = keys.get(newest.pointSetId)!;
  for (let id = await pointOnScreen(page); id !== null; id = await pointOnScreen(page)) {
    await page.keyboard.press(own.get(Number(id))!);
  }
}

const nextPhoto = (page: Page) => page.getByRole('button', { name: /^(Next photo|Finish)$/ });

test('points laid, called by keys, paused, reloaded in the middle; a second observer; the mask adjusted', async ({
  page,
}) => {
  await addPhotos(page, PHOTOS);
  await measured(page, PHOTOS.length);
  await layPoints(page, 6, 6);
  expect(await axeFindings(page)).toEqual([]);

  const keys = await trueKeys(page);
  await startCalling(page, 'K');
  expect(await axeFindings(page)).toEqual([]);
  // nothing on screen says which plot, treatment or mask it is
  await expect(page.getByRole('main')).not.toContainText(/\b(101|104|202)\b|Treatment/);

  const first = await pointOnScreen(page);
  await page.keyboard.press('r');
  expect(await pointOnScreen(page)).not.toBe(first);
  await page.keyboard.press('Backspace');
  expect(await pointOnScreen(page)).toBe(first);
  await page.keyboard.press('.');
  await page.keyboard.press('Escape');
  await expect(page.getByText('Paused', { exact: true })).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);
  await page.keyboard.press('r');
  await expect(page.getByText('Point 2 of 36')).toBeVisible();

  await page.reload();
  await expect(page.getByText('Point 2 of 36')).toBeVisible();
  const kept = (await stored(page)).calls.toSorted((a, b) => (a.calledAt < b.calledAt ? -1 : 1));
  expect(kept.map(({ classId }) => classId)).toEqual(['ryegrass', null]);

  for (let photo = 0; photo < PHOTOS.length; photo += 1) {
    await expect(page.locator('[data-point] canvas')).toBeVisible();
    await callByTruth(page, keys, 'K');
    await nextPhoto(page).click();
  }
  await expect(page.getByText('All photos of this date are counted')).toBeVisible();

  await startCalling(page, 'M');
  await callByTruth(page, keys, 'M');
  await nextPhoto(page).click();
  await page.getByRole('button', { name: 'Leave', exact: true }).click();

  await part(page, 'Results');
  await page.getByLabel('Observer', { exact: true }).selectOption('K');
  const estimates = page.getByRole('table', { name: /ground in one frame, not about the plot/ }).first();
  await expect(estimates.getByRole('row')).toHaveCount(1 + PHOTOS.length);
  await expect(page.getByRole('table', { name: 'Mask class by observed class, points' })).toBeVisible();
  await expect(page.getByText(/Kappa 0\.\d\d/)).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Adjusted cover' })).toBeVisible();
  await page.getByRole('button', { name: 'Keep these figures' }).click();
  await expect(page.getByText('Kept: 3 figures by points')).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);

  await part(page, 'Observers');
  // the same truth called twice
  await expect(page.getByText(/Kappa 1\.00/)).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);

  await part(page, 'On the turf');
  await page.getByLabel('Plot', { exact: true }).fill('101');
  await page.getByLabel('Points on Ryegrass').fill('71');
  await page.getByLabel('Points on Weedy grass').fill('20');
  await page.getByLabel('Points on Bare ground').fill('9');
  await page.getByRole('button', { name: 'Keep this count' }).click();
  await expect(page.getByText('Kept: plot 101, 100 points.')).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);
});

test('called by thumb on a phone, in the dark: buttons large and in reach, a held key counts once', async ({
  profile,
}) => {
  const page = await profile.open({
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
    colorScheme: 'dark',
  });
  await addPhotos(page, PHOTOS);
  await measured(page, PHOTOS.length);
  await layPoints(page, 4, 4);
  await startCalling(page, 'K');
  const buttons = ['Ryegrass', 'Weedy grass', 'Bare ground', 'Cannot tell'].map((name) =>
    page.getByRole('button', { name, exact: true }),
  );
  for (const button of buttons) {
    const box = (await button.boundingBox())!;
    expect(box.height).toBeGreaterThanOrEqual(60);
    expect(box.width).toBeGreaterThanOrEqual(150);
    expect(box.y).toBeGreaterThan(844 / 2);
    expect(box.y + box.height).toBeLessThanOrEqual(844);
  }
  for (const [index, button] of buttons.entries()) {
    await button.tap();
    await expect(page.getByText(`Point ${index + 2} of 16`)).toBeVisible();
  }
  await page.getByRole('button', { name: 'Back' }).tap();
  await expect(page.getByText('Point 4 of 16')).toBeVisible();
  await page.keyboard.down('w');
  await page.keyboard.down('w');
  await page.keyboard.down('w');
  await page.keyboard.up('w');
  await expect(page.getByText('Point 5 of 16')).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);
  await expect.poll(async () => (await stored(page)).calls.map(({ classId }) => classId)).toHaveLength(5);
});

test('training: a picture rated and called, held against its truth', async ({ page }) => {
  await addPhotos(page, PHOTOS.slice(0, 1));
  await measured(page, 1);
  await page.goto('#/points/training');
  await page.getByLabel('Observer', { exact: true }).fill('K');
  await page.getByRole('button', { name: 'Start a round' }).click();
  for (let picture = 1; picture <= 6; picture += 1) {
    await expect(
      page.getByRole('heading', { name: `Picture ${picture} of 6: how much of each?` }),
    ).toBeVisible();
    if (picture === 1) expect(await axeFindings(page)).toEqual([]);
    for (const [name, percent] of [
      ['Ryegrass', 60],
      ['Weedy grass', 25],
      ['Bare ground', 15],
    ] as const) {
      await page.getByLabel(name, { exact: true }).fill(String(percent));
    }
    await page.getByLabel('Bare ground', { exact: true }).blur();
    await page.getByRole('button', { name: 'On to the points' }).click();
    await expect(page.locator('[data-point] canvas')).toBeVisible();
    for (let point = 0; point < 25; point += 1) await page.keyboard.press('r');
    await nextPhoto(page).click();
  }
  const row = page.getByRole('row', { name: /^K, round 1/ });
  await expect(row).toBeVisible();
  // everything called ryegrass: no agreement beyond chance, and the rating of ryegrass lies above or below by a known amount
  await expect(row.getByRole('cell').nth(1)).toContainText(/0\.00/);
  expect(await axeFindings(page)).toEqual([]);
});
