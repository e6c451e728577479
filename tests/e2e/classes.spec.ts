import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';
import { addPhotos, expect, measured, openCover, test } from './app.ts';
import { axeFindings } from './axe.ts';

const folder = fileURLToPath(new URL('../../sample-images/', import.meta.url));
const trial = JSON.parse(readFileSync(`${folder}trial.json`, 'utf8')) as {
  readonly plots: readonly Record<'plot' | 'block' | 'treatment' | 'row' | 'column', string | number>[];
};
/** Four blocks, four treatments, and two photos more than are needed. */
const PHOTOS = ['101', '102', '203', '204', '301', '402'].map((plot) => `2027-05-17_${plot}.jpg`);

const part = (page: Page, name: string) =>
  page
    .getByRole('navigation', { name: 'Parts of the plan' })
    .getByRole('link', { name, exact: true })
    .click();

async function startTrial(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Plan', exact: true }).click();
  await page.getByLabel('Your name or initials').fill('K');
  await page.getByLabel('Name of the trial').fill('Outfield east');
  await page.getByLabel('Site').fill('Lane field');
  await page.getByLabel('Turf species').fill('perennial ryegrass');
  await page.getByRole('button', { name: 'Start the trial' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Outfield east' })).toBeVisible();
}

async function readPlots(page: Page): Promise<void> {
  const lines = [
    'plot,block,treatment,row,column',
    ...trial.plots.map(({ plot, block, treatment, row, column }) =>
      [plot, block, treatment, row, column].join(),
    ),
  ];
  await part(page, 'Layout');
  await page
    .getByLabel('Read plots (CSV)', { exact: true })
    .and(page.locator('input'))
    .setInputFiles({ name: 'plots.csv', mimeType: 'text/csv', buffer: Buffer.from(lines.join('\n')) });
  await expect(page.getByText('plots.csv was read.')).toBeVisible();
}

/** Opens the Cover screen from the list of photos. */
async function showCover(page: Page, name: string): Promise<void> {
  await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: 'Photos' }).click();
  await openCover(page, name);
}

/** Opens the Trial part of the plan that was started. */
async function openTrialPart(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Plan', exact: true }).click();
  await part(page, 'Trial');
}

test('a class is added, measured, added up with its plant, and asked about before it goes', async ({
  page,
}) => {
  await addPhotos(page, [PHOTOS[0]!]);
  await measured(page, 1);
  await startTrial(page);
  await part(page, 'Trial');
  const classes = page.getByRole('list', { name: 'Classes, in the order of masks and tables' });
  await expect(classes.getByRole('listitem')).toHaveCount(3);
  await expect(page.getByText('earlier classes')).toHaveCount(0);

  await page.getByRole('button', { name: 'Add a class' }).click();
  const dialog = page.getByRole('dialog', { name: 'Add a class' });
  await dialog.getByLabel('Kind').selectOption({ label: 'Seedheads' });
  await expect(dialog.getByLabel('In reports')).toHaveValue('weedy-grass');
  await dialog.getByLabel('Letter').fill('W');
  await expect(dialog.getByText('Weedy grass has this letter. Take another.')).toBeVisible();
  await expect(dialog.getByRole('button', { name: 'Keep the class' })).toBeDisabled();
  await dialog.getByLabel('Letter').fill('S');
  await dialog.getByLabel('Another colour').fill('#0071b0');
  await expect(dialog.getByText('Hard to tell from Ryegrass')).toBeVisible();
  await dialog.getByLabel('Colour 5').check();
  await expect(dialog.getByText('Hard to tell from')).toHaveCount(0);
  expect(await axeFindings(page)).toEqual([]);
  await dialog.getByRole('button', { name: 'Keep the class' }).click();
  await expect(classes.getByRole('listitem')).toHaveCount(4);
  await expect(classes.getByText('counts to Weedy grass, found by strokes only')).toBeVisible();

  await page.getByRole('button', { name: 'Move Seedheads up' }).click();
  await expect(classes.getByRole('listitem').nth(2)).toContainText('Seedheads');
  await expect(
    page.getByText('1 photo was measured with the earlier classes or rule for gaps.'),
  ).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);
  await page.getByRole('button', { name: 'Measure again' }).click();
  await expect(page.getByText('earlier classes')).toHaveCount(0);

  await showCover(page, PHOTOS[0]!);
  const figures = page.getByRole('region', { name: 'Share of the measured ground' });
  await expect(figures.getByRole('listitem').filter({ hasText: 'Seedheads' }).first()).toContainText('0');
  await expect(page.getByRole('list', { name: 'Added up for reports' })).toContainText(
    'Weedy grass + Seedheads',
  );
  await expect(page.getByText('A class has no strokes that show it')).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);

  await openTrialPart(page);
  await page.getByRole('button', { name: 'Change Seedheads' }).click();
  await page.getByRole('button', { name: 'Remove the class' }).click();
  await expect(page.getByText('On this class hang 1 measured photo.')).toBeVisible();
  await page.getByRole('button', { name: 'Remove it' }).click();
  await expect(classes.getByRole('listitem')).toHaveCount(3);
});

test('the rule for gaps is settled once: figures say it, and changing it later asks why', async ({
  page,
}) => {
  await addPhotos(page, [PHOTOS[0]!]);
  await measured(page, 1);
  await startTrial(page);
  await part(page, 'Trial');
  await page.getByRole('radio', { name: /^Narrow gaps count to the plants/ }).check();
  await page.getByLabel('Width of the circle').fill('8');
  await page.getByLabel('Width of the circle').press('Enter');
  await expect(
    page.getByText('1 photo was measured with the earlier classes or rule for gaps.'),
  ).toBeVisible();
  await page.getByRole('button', { name: 'Measure again' }).click();
  await expect(page.getByText('earlier classes')).toHaveCount(0);
  await showCover(page, PHOTOS[0]!);
  // the photo has no frame, so there are no millimetres to go by
  await expect(page.getByText('every pixel was counted. Enter the frame’s size.')).toBeVisible();
  await expect(page.getByText('no circle of 8 mm fits')).toHaveCount(0);
});

test('teaching says where to begin: every block and treatment', async ({ page }) => {
  await addPhotos(page, PHOTOS);
  await measured(page, PHOTOS.length);
  await startTrial(page);
  await readPlots(page);
  await showCover(page, PHOTOS[0]!);
  await page.getByRole('button', { name: 'Teach with strokes' }).click();
  await expect(
    page.getByText(/^Start with Plot .* they stand for 4 of 4 blocks and 4 of 4 treatments/),
  ).toBeVisible();
  await expect(page.getByRole('button', { name: /Start here/ })).toHaveCount(4);

  // one dot on one photo: what was painted speaks for one treatment of four
  await page.getByRole('group', { name: /to be painted on/ }).focus();
  await page.keyboard.press('Enter');
  await expect(
    page.getByText(/^Nothing is painted on photos of .+ and .+\. Turf that was treated/),
  ).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);
});
