import type { Page } from '@playwright/test';
import { coverWords, expect, sample, test } from './app.ts';

/** Presses Tab until something with this role and name has the focus. */
async function tabTo(page: Page, role: Parameters<Page['getByRole']>[0], name: string | RegExp) {
  const target = page.getByRole(role, { name }).first();
  await expect(target).toBeVisible();
  for (let presses = 0; presses < 40; presses += 1) {
    await page.keyboard.press('Tab');
    if (await target.evaluate((element) => element === document.activeElement)) return;
  }
  throw new Error(`${role} "${name}" was not reached with the Tab key`);
}

test('the whole way from photo to changed cover by keyboard only', async ({ page }) => {
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  const chooser = page.waitForEvent('filechooser');
  await tabTo(page, 'button', 'Open photos');
  await page.keyboard.press('Enter');
  await (await chooser).setFiles([sample('2027-05-17_101.jpg'), sample('2027-05-17_102.jpg')]);
  await expect(page.getByRole('main').getByRole('img', { name: /^Cover:/ })).toHaveCount(2);

  await tabTo(page, 'link', 'Show the cover of 2027-05-17_101.jpg');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'Plot 101' })).toBeVisible();
  const before = await coverWords(page);

  // the photo: zoomed, moved, whole again
  await tabTo(page, 'group', /^Photo 2027/);
  await expect(page.getByRole('button', { name: 'Zoom in' })).toBeEnabled();
  await page.keyboard.press('+');
  await page.keyboard.press('ArrowRight');
  await expect(page.getByRole('button', { name: 'Show the whole photo' })).toBeEnabled();
  await page.keyboard.press('0');

  // a class off and on
  await page.keyboard.press('1');
  await expect(page.getByRole('checkbox', { name: 'Show Ryegrass on the photo' })).not.toBeChecked();
  await page.keyboard.press('1');

  // the measured area
  await page.keyboard.press('m');
  await tabTo(page, 'button', /^Top left corner/);
  const corner = page.getByRole('button', { name: /^Top left corner/ });
  const numbersOf = (name: string | null) => name!.match(/[\d.]+/g)!.map(Number) as [number, number];
  const [across, down] = numbersOf(await corner.getAttribute('aria-label'));
  for (let i = 0; i < 25; i += 1) {
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Shift+ArrowDown');
  }
  await expect(corner).toBeFocused();
  const moved = numbersOf(await corner.getAttribute('aria-label'));
  expect(moved[0]).toBeCloseTo(across + 250, 6);
  expect(moved[1]).toBeCloseTo(down + 250, 6);
  await page.keyboard.press('m');
  await expect.poll(() => coverWords(page)).not.toBe(before);

  await page.keyboard.press('n');
  await expect(page.getByRole('heading', { name: 'Plot 102' })).toBeVisible();
  await page.keyboard.press('g');
  await expect(page.getByRole('heading', { name: 'Photos' })).toBeVisible();

  // help names the keys, and single letters can be switched off
  await page.keyboard.press('?');
  const help = page.getByRole('dialog', { name: 'Keys and help' });
  await expect(help.getByRole('row', { name: 'Select all photos Ctrl+A' })).toBeVisible();
  await help.getByRole('checkbox', { name: /Single letters/ }).press('Space');
  await page.keyboard.press('Escape');
  await expect(help).toHaveCount(0);
  await page.keyboard.press('t');
  await expect(page.getByRole('table')).toHaveCount(0);
  await page.keyboard.press('Control+a');
  await expect(page.getByRole('toolbar', { name: '2 selected' })).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(page.getByRole('toolbar', { name: '2 selected' })).toHaveCount(0);
});
