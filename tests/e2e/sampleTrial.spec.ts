import type { Page } from '@playwright/test';
import { expect, test } from './app.ts';
import { axeFindings } from './axe.ts';
import { visit } from './walk.ts';

const openSample = async (page: Page) => {
  await page.getByRole('button', { name: 'Open the sample trial' }).click();
  await expect(page.getByRole('heading', { name: 'Photos', level: 1, exact: true })).toBeVisible({
    timeout: 60_000,
  });
};
/** The plan first asks who works on it. */
const sign = async (page: Page) => {
  const name = page.getByRole('textbox', { name: 'Your name or initials' });
  const open = page.getByRole('button', { name: 'Open the plan' });
  if ((await open.count()) === 0) return;
  await name.fill('K');
  await open.click();
};
const mark = (page: Page) => page.getByRole('complementary', { name: /^Sample trial/ });

test('one press brings a whole trial, named as rendered and invented on every screen; one takes it away', async ({
  page,
}) => {
  test.setTimeout(150_000);
  const fetched: string[] = [];
  page.on('request', (request) => fetched.push(request.url()));
  await page.reload();
  await expect(page.getByRole('button', { name: 'Open the sample trial' })).toBeEnabled();
  expect(await axeFindings(page), 'start screen').toEqual([]);
  // nothing of it is part of the first load
  expect(fetched.filter((url) => /trial-records|\.jpe?g/.test(url))).toEqual([]);

  await openSample(page);
  const main = page.getByRole('main');
  await expect(
    main
      .getByText('64 photos')
      .or(main.getByRole('heading', { level: 2 }))
      .first(),
  ).toBeVisible();
  await expect(page.getByRole('progressbar', { name: 'Measuring photos' })).toHaveCount(0);
  expect(await axeFindings(page), 'photos of the sample trial').toEqual([]);

  const shows: readonly (readonly [string, RegExp | string])[] = [
    ['#/plan', 'Sample trial (rendered photos, invented results)'],
    ['#/plan/layout', '404'],
    ['#/points', /2027/],
    ['#/compare', /Weedy grass/],
    ['#/report', /sample/i],
  ];
  for (const [path, words] of shows) {
    await visit(page, path);
    await sign(page);
    await expect(main, path).toContainText(words);
    await expect(mark(page), path).toContainText('rendered');
  }

  await mark(page).getByRole('button', { name: 'Take it away' }).click();
  const dialog = page.getByRole('dialog', { name: 'Take the sample trial away?' });
  expect(await axeFindings(page), 'asking before the sample trial goes').toEqual([]);
  await dialog.getByRole('button', { name: 'Take it away' }).click();
  await expect(page.getByRole('heading', { name: 'Percent cover from photos of turf plots' })).toBeVisible();
  await expect(mark(page)).toHaveCount(0);
  await visit(page, '#/plan');
  await expect(main).not.toContainText('Sample trial');

  await visit(page, '#/');
  await openSample(page);
  await expect(mark(page)).toBeVisible();
});

test('a sample trial that does not arrive leaves everything as it was, and says why', async ({ page }) => {
  let photos = 0;
  await page.route(/\.jpe?g$/, (route) => {
    photos += 1;
    return photos > 5 ? route.fulfill({ status: 200, body: 'not this photo' }) : route.continue();
  });
  await page.route(/trial-records/, (route) => route.fulfill({ status: 200, body: 'gone' }));
  await page.getByRole('button', { name: 'Open the sample trial' }).click();
  await expect(page.getByRole('alert')).toContainText('The sample trial could not be taken in');
  await page.unroute(/trial-records/);
  await expect(page.getByRole('button', { name: 'Open the sample trial' })).toBeEnabled();
});
