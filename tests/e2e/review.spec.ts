import { addPhotos, expect, measured, test } from './app.ts';
import { axeFindings } from './axe.ts';
import { cover, placesOn, ready, storedGestures } from './correcting.ts';

const PHOTOS = ['2027-05-17_101.jpg', '2027-05-17_102.jpg', '2027-05-17_103.jpg'];

test('a date is reviewed by keys, signed off, and a later correction shows', async ({ profile, page }) => {
  await addPhotos(page, PHOTOS);
  await measured(page, 3);
  await page.getByRole('link', { name: 'Review 17 May 2027' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Review 17 May 2027');
  await expect(page.getByText('0 of 3 photos looked at', { exact: true })).toBeVisible();
  await expect(page.getByRole('button', { name: 'Sign off 17 May 2027' })).toBeDisabled();
  expect(await axeFindings(page)).toEqual([]);
  await page.getByLabel('Reviewed by').fill('K');
  await page.getByRole('heading', { level: 1 }).click();

  await page.keyboard.press('a');
  await expect(page.getByText('1 of 3 photos looked at', { exact: true })).toBeVisible();
  await page.keyboard.press('s');
  await expect(page.getByRole('button', { name: /^Plot \d+ skipped$/ })).toBeVisible();
  await expect(page.getByText('1 of 3 photos looked at', { exact: true })).toBeVisible();

  // the third is corrected, and accepted as it then is
  await page.keyboard.press('c');
  await ready(page);
  const computed = await cover(page);
  const place = await placesOn(page);
  await page.keyboard.press('3');
  await page.mouse.move(...(place(0.4, 0.4) as [number, number]));
  await page.mouse.down();
  await page.mouse.move(...(place(0.5, 0.5) as [number, number]), { steps: 5 });
  await page.mouse.up();
  await storedGestures(page, 1);
  expect(await cover(page)).not.toBe(computed);
  await page.keyboard.press('Escape');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Review 17 May 2027');
  await expect(page.getByRole('button', { name: 'Accept', exact: true })).toBeVisible();
  await page.keyboard.press('a');
  await expect(page.getByRole('button', { name: /^Plot \d+ corrected$/ })).toBeVisible();
  await expect(page.getByText('2 of 3 photos looked at', { exact: true })).toBeVisible();

  await page.getByRole('button', { name: 'Sign off 17 May 2027' }).click();
  await expect(page.getByText(/^Signed off by K, /)).toBeVisible();
  await expect(page.getByText('2 of 3 photos had been looked at.')).toBeVisible();
  await expect(page.getByText('Unchanged since then.')).toBeVisible();
  await expect(page.locator('code')).toHaveText(/^[0-9a-f]{64}$/);
  expect(await axeFindings(page)).toEqual([]);

  // taking the correction back changes what was signed
  await page.getByRole('button', { name: /^Plot \d+ corrected$/ }).click();
  await page.keyboard.press('c');
  await ready(page);
  await page.keyboard.press('Control+z');
  await storedGestures(page, 0);
  await page.keyboard.press('Escape');
  await expect(page.getByText(/^Changed since sign-off\./)).toBeVisible();
  await page.getByLabel('Reason for the amendment').fill('no frost after all');
  await page.getByRole('button', { name: 'Sign the amendment' }).click();
  await expect(page.getByText(/^Amended by K, .*: no frost after all$/)).toBeVisible();
  await expect(page.getByText('Unchanged since then.')).toBeVisible();

  // all of it is there after the browser was closed
  await profile.close();
  const later = await profile.open({}, '#/review/2027-05-17');
  await expect(later.getByText(/^Amended by K, /)).toBeVisible();
  await expect(later.getByText('Unchanged since then.')).toBeVisible();
  await expect(later.getByRole('button', { name: /^Plot \d+ accepted$/ })).toBeVisible();
});

test('on a phone', async ({ profile }) => {
  const page = await profile.open({
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
    deviceScaleFactor: 2,
  });
  await addPhotos(page, PHOTOS.slice(0, 2));
  await measured(page, 2);
  await page.getByRole('link', { name: 'Review 17 May 2027' }).tap();
  await page.getByRole('button', { name: 'Accept', exact: true }).tap();
  await expect(page.getByText('1 of 2 photos looked at', { exact: true })).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);
  // nothing is wider than the phone
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
});
