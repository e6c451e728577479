import { addPhotos, expect, measured, test } from './app.ts';

test('photos of a newer version are left untouched, and their records can be saved', async ({ page }) => {
  await addPhotos(page, ['2027-05-17_101.jpg']);
  await measured(page, 1);
  const takeOver = () =>
    page.evaluate(async () => {
      const [database] = await indexedDB.databases();
      await new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open(database!.name!, database!.version! + 1000);
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          opening.result.close();
          resolve();
        };
      });
    });
  await takeOver();
  const notice = page.getByRole('alert').filter({ hasText: 'saved by a newer version of Swardbook' });
  await expect(notice).toBeVisible();
  await page.reload();
  await expect(notice).toBeVisible();
  await expect(page.getByRole('button', { name: 'Open photos' })).toHaveCount(0);

  const download = page.waitForEvent('download');
  await notice.getByRole('button', { name: 'Save the raw records' }).click();
  const stream = await (await download).createReadStream();
  let text = '';
  for await (const part of stream) text += part;
  expect(text).toContain('2027-05-17_101.jpg');
});

test('a choice of brightness stays on this device', async ({ page }) => {
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  const paper = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  const light = await paper();
  await page.getByRole('button', { name: 'Keys and help' }).click();
  await page.getByRole('radio', { name: 'Dark' }).check();
  expect(await paper()).not.toBe(light);
  const dark = await paper();
  await page.reload();
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  expect(await paper()).toBe(dark);
});

test('lengths are read in feet and inches where asked for, kept in mm, and typed in either', async ({
  page,
}) => {
  await page.getByRole('link', { name: 'Plan', exact: true }).click();
  await page.getByLabel('Your name or initials').fill('K');
  await page.getByLabel('Name of the trial').fill('Outfield east');
  await page.getByLabel('Site').fill('Larkrise Park');
  await page.getByLabel('Turf species').fill('perennial ryegrass');
  await page.getByRole('button', { name: 'Start the trial' }).click();
  const mowing = page.getByLabel('Mowing height (mm)');
  await mowing.fill('0.5 in');
  await mowing.press('Enter');
  await expect(mowing).toHaveValue('12.7');
  await page.getByRole('button', { name: 'Keys and help' }).click();
  // the page starts anew with it
  await page.getByRole('radio', { name: 'Metric, with feet, inches and °F beside' }).click();
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await expect(mowing).toHaveValue('12.7');
  await expect(mowing).toHaveAccessibleDescription('0.5 in');
  for (const [name, typed] of [
    ['Gross width (mm)', '5 ft'],
    ['Gross length (mm)', '2000'],
    ['Net width (mm)', '4 ft'],
    ['Net length (mm)', '1500'],
  ] as const) {
    await page.getByLabel(name).fill(typed);
  }
  await page.getByLabel('Net length (mm)').press('Enter');
  await expect(page.getByLabel('Gross width (mm)')).toHaveValue('1524');
  await expect(page.getByLabel('Gross width (mm)')).toHaveAccessibleDescription('5 ft');
});
