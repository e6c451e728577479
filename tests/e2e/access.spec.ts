import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { Page } from '@playwright/test';
import type { AxeResults } from 'axe-core';
import { addPhotos, expect, measured, openCover, test, textFile } from './app.ts';

const axeSource = readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Findings of axe on what is on screen now, in words. */
async function findings(page: Page): Promise<string[]> {
  await page.evaluate(await axeSource);
  const { violations } = await page.evaluate(() =>
    (window as unknown as { axe: { run(): Promise<AxeResults> } }).axe.run(),
  );
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${id}: ${help} at ${target.join(' ')}: ${failureSummary}`),
  );
}

const SCREENS = [
  ['desk, light', { colorScheme: 'light' }],
  ['desk, dark', { colorScheme: 'dark' }],
  [
    'phone, light',
    { colorScheme: 'light', viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true },
  ],
] as const;

for (const [name, options] of SCREENS) {
  test(`axe finds nothing on any screen and state: ${name}`, async ({ profile }) => {
    const page = await profile.open(options);
    const clean = async (state: string) => expect.soft(await findings(page), state).toEqual([]);
    await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
    await clean('start');

    await addPhotos(page, [
      '2027-05-17_101.jpg',
      '2027-05-17_102.jpg',
      '2027-07-26_101.jpg',
      textFile('notes.jpg', 'no picture'),
      textFile('nothing.jpg', ''),
    ]);
    await measured(page, 3);
    await clean('photos with trouble');
    await page.getByRole('checkbox', { name: 'Select all of 17 May 2027' }).check();
    await clean('photos selected');
    await page.getByRole('button', { name: 'Plot and date' }).click();
    await clean('plot and date');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Remove', exact: true }).first().click();
    await clean('removing');
    await page.keyboard.press('Escape');
    await page.getByRole('radio', { name: 'Table' }).check();
    await clean('table');
    await page.getByRole('radio', { name: 'Pictures' }).check();

    await openCover(page, '2027-05-17_101.jpg');
    await page.getByText('Where this figure comes from').click();
    await clean('cover');
    await page.getByRole('button', { name: 'Teach with strokes' }).click();
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('Teach 17 May 2027');
    await clean('teaching');
    await page.getByRole('button', { name: 'Done', exact: true }).click();
    await expect(page.getByRole('button', { name: 'Mark the measured area' }).first()).toBeEnabled();
    await page.keyboard.press('m');
    await expect(page.getByRole('button', { name: /^Top left corner/ })).toBeVisible();
    await page.getByLabel('Top left, across (px)').fill('-5');
    await page.getByLabel('Top left, across (px)').press('Enter');
    await expect(page.getByRole('alert')).toBeVisible();
    await clean('measured area, corner outside');
    await page.getByRole('button', { name: 'Keys and help' }).click();
    await clean('help');
  });
}
