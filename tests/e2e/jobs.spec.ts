import { expect, measured, test } from './app.ts';

test.setTimeout(150_000);

test('a batch goes on after a reload', async ({ page }) => {
  await page.getByRole('button', { name: 'Use the sample photos' }).click();
  const strip = page.getByRole('region', { name: 'Measuring photos' });
  await expect(strip.getByText(/^Measured [1-9]\d* of 64/)).toBeVisible({ timeout: 60_000 });
  await page.reload();
  await measured(page, 64);
  await expect(page.getByRole('progressbar')).toHaveCount(0);
});

test('after the whole browser was killed in mid-batch every figure that was shown is there, and the rest is measured', async ({
  profile,
}) => {
  test.skip(process.platform !== 'linux', 'killing the process tree is written for Linux');
  const page = await profile.open();
  await page.getByRole('button', { name: 'Use the sample photos' }).click();
  const bars = page.getByRole('main').getByRole('img', { name: /^Cover:/ });
  await expect(page.getByRole('link', { name: /^Show the cover of/ })).toHaveCount(64, { timeout: 60_000 });
  await expect(bars.nth(9)).toBeAttached({ timeout: 60_000 });
  const shown = await bars.count();
  await profile.kill();

  const again = await profile.open({}, '#/photos');
  const kept = again.getByRole('main').getByRole('img', { name: /^Cover:/ });
  await expect(kept.nth(shown - 1)).toBeAttached();
  await expect(again.getByRole('link', { name: /^Show the cover of/ })).toHaveCount(64);
  await measured(again, 64);
});
