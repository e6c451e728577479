import { mkdir } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { expect, openCover, test } from './app.ts';
import { visit } from './walk.ts';

const pictures = fileURLToPath(new URL('../../docs/pictures/', import.meta.url));
const keeps = process.env.SWARDBOOK_PICTURES === '1';

/** The way that docs/first-hour.md tells; with SWARDBOOK_PICTURES=1 its pictures are taken anew. */
test('the first hour as it is told in the docs', async ({ page }) => {
  test.setTimeout(180_000);
  const picture = async (name: string) => {
    if (!keeps) return;
    await page.evaluate(() => scrollTo(0, 0));
    await page.waitForTimeout(600);
    await mkdir(pictures, { recursive: true });
    await page.screenshot({ path: `${pictures}${name}.jpg`, type: 'jpeg', quality: 70 });
  };
  await page.setViewportSize({ width: 1200, height: 780 });
  const main = page.getByRole('main');
  await expect(page.getByRole('button', { name: 'Open the sample trial' })).toBeEnabled();
  await picture('first-hour-start');

  await page.getByRole('button', { name: 'Open the sample trial' }).click();
  await expect(page.getByRole('heading', { name: 'Photos', level: 1, exact: true })).toBeVisible({
    timeout: 60_000,
  });
  await picture('first-hour-photos');

  await visit(page, '#/plan/layout');
  await page.getByRole('textbox', { name: 'Your name or initials' }).fill('K');
  await page.getByRole('button', { name: 'Open the plan' }).click();
  await expect(main.getByText('404', { exact: true }).first()).toBeVisible();
  await picture('first-hour-plan');

  await visit(page, '#/photos');
  await openCover(page, '2027-07-26_101.jpg');
  await expect(main.getByText('Share of the measured ground')).toBeVisible();
  await picture('first-hour-cover');

  await page.getByRole('button', { name: 'Teach with strokes' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Teach 26 July 2027');
  await picture('first-hour-teach');

  await visit(page, '#/review/2027-07-26');
  await picture('first-hour-review');

  await visit(page, '#/points/results');
  await picture('first-hour-points');

  await visit(page, '#/compare');
  await expect(main).toContainText(/Weedy grass/);
  await picture('first-hour-compare');

  await visit(page, '#/report');
  await picture('first-hour-report');
});
