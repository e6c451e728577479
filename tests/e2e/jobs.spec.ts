import { addPhotos, expect, measured, test } from './app.ts';

/** Enough that a batch is under way for some seconds. */
const BATCH = ['2027-04-12', '2027-05-17'].flatMap((date) =>
  [1, 2, 3].flatMap((block) => [1, 2, 3, 4].map((plot) => `${date}_${block}0${plot}.jpg`)),
);

test('a batch goes on after a reload', async ({ page }) => {
  await addPhotos(page, BATCH);
  const strip = page.getByRole('region', { name: 'Measuring photos' });
  await expect(strip.getByText(/^Measured [1-9]\d* of 24/)).toBeVisible({ timeout: 60_000 });
  await page.reload();
  await measured(page, BATCH.length);
  await expect(page.getByRole('progressbar')).toHaveCount(0);
});

test('after the whole browser was killed in mid-batch every figure that was shown is there, and the rest is measured', async ({
  profile,
}) => {
  test.skip(process.platform !== 'linux', 'killing the process tree is written for Linux');
  const page = await profile.open();
  await addPhotos(page, BATCH);
  const bars = page.getByRole('main').getByRole('img', { name: /^Cover:/ });
  await expect(page.getByRole('link', { name: /^Show the cover of/ })).toHaveCount(BATCH.length, {
    timeout: 60_000,
  });
  await expect(bars.nth(5)).toBeAttached({ timeout: 60_000 });
  const shown = await bars.count();
  await profile.kill();

  const again = await profile.open({}, '#/photos');
  const kept = again.getByRole('main').getByRole('img', { name: /^Cover:/ });
  await expect(kept.nth(shown - 1)).toBeAttached();
  await expect(again.getByRole('link', { name: /^Show the cover of/ })).toHaveCount(BATCH.length);
  await measured(again, BATCH.length);
});
