import { addPhotos, coverWords, expect, measured, openCover, paintedShare, test } from './app.ts';

const PHOTO = '2027-05-17_101.jpg';

test('a photo is opened, measured, laid over with its classes, and found again after a reload and a restart', async ({
  profile,
  page,
}) => {
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Percent cover from photos of turf plots');
  await addPhotos(page, [PHOTO]);
  await measured(page, 1);
  await expect(page.getByText('Plot 101')).toBeVisible();
  await expect(page.getByRole('heading', { name: '17 May 2027' })).toBeVisible();

  await openCover(page, PHOTO);
  const words = await coverWords(page);
  expect(words).toMatch(
    /^Cover: Ryegrass [<>]?[\d.]+ %, Weedy grass [<>]?[\d.]+ %, Bare ground \(soil, thatch, dormant turf\) [<>]?[\d.]+ %\.$/,
  );
  // what is measured lies inside the frame that was found: nearly half of the photo
  await expect.poll(() => paintedShare(page)).toBeGreaterThan(0.35);
  await expect(
    page.getByText('No interval: the error of automatic figures has not been validated.'),
  ).toBeVisible();

  await page.reload();
  await expect.poll(() => coverWords(page)).toBe(words);
  await expect.poll(() => paintedShare(page)).toBeGreaterThan(0.35);

  await profile.close();
  const later = await profile.open();
  await measured(later, 1);
  await openCover(later, PHOTO);
  expect(await coverWords(later)).toBe(words);
});

test('a class can be taken off the photo and put back', async ({ page }) => {
  await addPhotos(page, [PHOTO]);
  await openCover(page, PHOTO);
  await expect.poll(() => paintedShare(page)).toBeGreaterThan(0.35);
  const ryegrass = page.getByRole('checkbox', { name: 'Show Ryegrass on the photo' });
  await ryegrass.uncheck();
  await expect.poll(() => paintedShare(page)).toBeLessThan(0.2);
  await ryegrass.check();
  await expect.poll(() => paintedShare(page)).toBeGreaterThan(0.35);
});

test('the photo is zoomed by wheel, keys and buttons, and shown whole again', async ({ page }) => {
  await addPhotos(page, [PHOTO]);
  await openCover(page, PHOTO);
  await expect.poll(() => paintedShare(page)).toBeGreaterThan(0.35);
  const stage = page.getByRole('group', { name: /^Photo 2027/ });
  const whole = page.getByRole('button', { name: 'Show the whole photo' });
  await expect(whole).toBeDisabled();
  await stage.hover();
  await page.mouse.wheel(0, -300);
  await expect(whole).toBeEnabled();
  // a busy browser hands on the turn of a wheel in several events, the last perhaps after the key
  await expect(async () => {
    await page.keyboard.press('0');
    await expect(whole).toBeDisabled({ timeout: 1000 });
  }).toPass();
  await page.keyboard.press('+');
  await expect(whole).toBeEnabled();
  await whole.click();
  await expect(whole).toBeDisabled();
  await page.getByRole('button', { name: 'Zoom in' }).click();
  await expect(whole).toBeEnabled();

  // what is under the pointer is said in words
  await stage.hover();
  await expect(stage.getByText(/ at \d+, \d+$/)).toBeVisible();
});

test('plot and date are corrected by hand and stay', async ({ page }) => {
  await addPhotos(page, [PHOTO]);
  await openCover(page, PHOTO);
  await page.getByRole('button', { name: 'Change', exact: true }).click();
  const dialog = page.getByRole('dialog', { name: 'Plot and date' });
  await dialog.getByLabel('Plot').fill('999');
  await dialog.getByLabel('Rating date').fill('2027-06-01');
  await dialog.getByRole('button', { name: 'Save' }).click();
  await expect(page.getByRole('heading', { name: 'Plot 999' })).toBeVisible();
  await expect(page.getByText('1 June 2027 · entered by hand')).toBeVisible();
  await page.reload();
  await expect(page.getByRole('heading', { name: 'Plot 999' })).toBeVisible();
});
