import type { Page } from '@playwright/test';
import { truePatches } from '../support/truePatches.ts';
import {
  addPhotos,
  coverWords,
  expect,
  measured,
  openCover,
  paintedShare,
  settledCover,
  test,
} from './app.ts';

const PHOTO = '2027-05-17_101.jpg';
const OTHERS = ['2027-05-17_102.jpg', '2027-05-17_104.jpg'];
const NAMES: Readonly<Record<string, string>> = {
  ryegrass: 'Ryegrass',
  'weedy-grass': 'Weedy grass',
  'bare-ground': 'Bare ground',
};

const stageOf = (page: Page) => page.getByRole('group', { name: /to be painted on/ });

/** Opens the photo's Cover screen and teaching. */
async function openTeaching(page: Page): Promise<void> {
  await openCover(page, PHOTO);
  await page.getByRole('button', { name: 'Teach with strokes' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Teach 17 May 2027');
  await expect(page.getByText('Reading the photos…')).toHaveCount(0);
}

/** Strokes in the browser's database. */
const storedStrokes = (page: Page): Promise<number> =>
  page.evaluate(
    () =>
      new Promise((resolve) => {
        const opening = indexedDB.open('swardbook');
        opening.onsuccess = () => {
          const database = opening.result;
          const counting = database.transaction('strokes').objectStore('strokes').count();
          counting.onsuccess = () => {
            database.close();
            resolve(counting.result);
          };
        };
      }),
  );

/** Paints short strokes where the true mask has one class. */
async function paint(page: Page, each: number, only?: readonly string[]): Promise<void> {
  const patches = await truePatches(PHOTO, each);
  const box = (await stageOf(page).boundingBox())!;
  const scale = Math.min(box.width / 1000, box.height / 750);
  const left = box.x + (box.width - 1000 * scale) / 2;
  const top = box.y + (box.height - 750 * scale) / 2;
  for (const [classId, name] of Object.entries(NAMES)) {
    if (only && !only.includes(classId)) continue;
    await page.getByRole('radio', { name: new RegExp(`^${name}`) }).check();
    for (const { x, y } of patches.filter((patch) => patch.classId === classId)) {
      await page.mouse.move(left + x * scale, top + y * scale);
      await page.mouse.down();
      await page.mouse.move(left + (x + 5) * scale, top + (y + 2) * scale, { steps: 3 });
      await page.mouse.up();
    }
  }
}

test('strokes teach, the other photos follow, and all photos of the date are measured with the model', async ({
  profile,
  page,
}) => {
  await addPhotos(page, [PHOTO, ...OTHERS]);
  await measured(page, 3);
  await openTeaching(page);

  await paint(page, 1, ['ryegrass']);
  await expect(page.getByText('Only Ryegrass is painted. Paint a second class')).toBeVisible();
  const use = page.getByRole('button', { name: 'Use for all 3 photos of this date' });
  await expect(use).toBeDisabled();
  await expect.poll(() => paintedShare(page)).toBe(0); // nothing half shown

  await paint(page, 4);
  await expect(page.getByText(/% of [\d,]+ places are called as you painted them/)).toBeVisible();
  await expect(page.getByText('This is not the accuracy: people paint easy places.')).toBeVisible();
  const taughtWords = await settledCover(page);
  await expect.poll(() => paintedShare(page)).toBeGreaterThan(0.35);
  for (const plot of ['101', '102', '104']) {
    await expect(
      page.getByRole('button', { name: new RegExp(`Plot ${plot}.*Cover: Ryegrass`) }),
    ).toBeVisible();
  }

  await use.click();
  await expect(page.getByText('All 3 photos are measured with this model.')).toBeVisible();
  await expect(use).toBeDisabled();
  await page.getByRole('button', { name: 'Done', exact: true }).click();
  // the figure is that of the last preview
  await expect.poll(() => coverWords(page), { timeout: 60_000 }).toBe(taughtWords);
  await page.getByText('Where this figure comes from').click();
  await expect(page.getByText(/^[0-9a-f]{64}$/).first()).toBeVisible();

  // strokes and model outlive the browser
  await profile.close();
  const later = await profile.open();
  await measured(later, 3);
  await openTeaching(later);
  await expect(later.getByText('All 3 photos are measured with this model.')).toBeVisible();
  expect(await settledCover(later)).toBe(taughtWords);
});

test('a stroke is undone, done again and erased; each is kept at once', async ({ page }) => {
  await addPhotos(page, [PHOTO]);
  await measured(page, 1);
  await openTeaching(page);
  await paint(page, 1, ['ryegrass']);
  const ryegrass = page.getByRole('radio', { name: /^Ryegrass/ });
  const count = (words: string) =>
    expect(ryegrass.and(page.getByRole('radio', { name: words }))).toHaveCount(1);
  await count('Ryegrass 1 stroke');
  await page.keyboard.press('Control+z');
  await count('Ryegrass 0 strokes');
  await page.keyboard.press('Control+Shift+Z');
  await count('Ryegrass 1 stroke');
  await page.keyboard.press('e');
  const [patch] = await truePatches(PHOTO, 1);
  const box = (await stageOf(page).boundingBox())!;
  const scale = Math.min(box.width / 1000, box.height / 750);
  await page.mouse.click(
    box.x + (box.width - 1000 * scale) / 2 + patch!.x * scale,
    box.y + (box.height - 750 * scale) / 2 + patch!.y * scale,
  );
  await count('Ryegrass 0 strokes');
  await page.keyboard.press('Control+z');
  await count('Ryegrass 1 stroke');
  await expect.poll(() => storedStrokes(page)).toBe(1);
  await page.reload();
  await page.getByRole('button', { name: 'Teach with strokes' }).click();
  await count('Ryegrass 1 stroke');
});

test('painting by keys alone: class by digit, brush by arrows, a dot by Enter', async ({ page }) => {
  await addPhotos(page, [PHOTO]);
  await measured(page, 1);
  await openTeaching(page);
  await stageOf(page).focus();
  for (const [digit, word] of [
    ['1', 'Ryegrass'],
    ['2', 'Weedy grass'],
  ]) {
    // keys that come before the photo is ready to be painted on do nothing
    await expect(async () => {
      await page.keyboard.press(digit!);
      await page.keyboard.press('Shift+ArrowRight');
      await page.keyboard.press('ArrowDown');
      await page.keyboard.press('Enter');
      const painted = page.getByRole('radio', { name: new RegExp(`^${word} [1-9]\\d* stroke`) });
      await expect(painted).toBeChecked({ timeout: 3000 });
    }).toPass();
  }
  await expect(
    page.getByText('No strokes of Bare ground: the model never calls what it was not shown.'),
  ).toBeVisible();
});
