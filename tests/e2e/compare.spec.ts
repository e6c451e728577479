import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { type MadeUpTrial, madeUpRecords, putRecords } from '../support/madeUpTrial.ts';
import { addPhotos, expect, measured, test } from './app.ts';
import { axeFindings } from './axe.ts';

const PARTS = ['Result', 'Over dates', 'Pictures', 'Turf', 'Programme', 'Checks', 'Declared'];
const PHOTOS = ['101', '102', '103', '104', '201', '202', '203', '204'].map(
  (plot) => `2027-07-26_${plot}.jpg`,
);

const part = (page: Page, name: string) =>
  page
    .getByRole('navigation', { name: 'Parts of the comparison' })
    .getByRole('link', { name, exact: true })
    .click();

const finding = (page: Page) => page.getByRole('region', { name: 'Finding' });

/** A page with a made-up trial in its database, on the Compare screen. */
async function compareMadeUp(page: Page, trial: MadeUpTrial): Promise<void> {
  await expect(page.getByRole('button', { name: 'Open photos' }).first()).toBeVisible();
  await putRecords(page, madeUpRecords(trial));
  await page.goto('#/compare');
  await page.reload();
}

const usual: MadeUpTrial['cover'] = ({ treatment, block, date, random }) =>
  Math.max(0, 40 - 8 * treatment + 2 * block + 3 * date + 4 * random());

test('the sample trial: declared under codes first, then finding, table, pictures and turf of photos', async ({
  page,
}) => {
  await page.getByRole('link', { name: 'Plan', exact: true }).click();
  await page.getByLabel('Your name or initials').fill('K');
  await page.getByRole('button', { name: 'Use the sample plan' }).click();
  await expect(page.getByRole('heading', { level: 1, name: /Outfield east/ })).toBeVisible();
  await page.goto('#/');
  await addPhotos(page, PHOTOS);
  await measured(page, PHOTOS.length);

  await page.getByRole('link', { name: 'Compare', exact: true }).click();
  await expect(page.getByRole('heading', { name: 'Declare first' })).toBeVisible();
  const main = page.getByRole('main');
  // no name and no number of a treatment, no value by treatment
  for (const name of ['L-31', 'growth regulator']) await expect(main).not.toContainText(name);
  await expect(main.getByRole('table', { name: 'What is there' }).getByRole('row')).toHaveCount(5);
  expect(await axeFindings(page)).toEqual([]);
  await page.getByLabel('Level of significance').fill('five');
  await expect(page.getByRole('alert')).toContainText(
    'Level of significance is "five"; allowed: a number above 0',
  );
  await page.getByLabel('Level of significance').fill('0.05');
  await page.getByRole('button', { name: 'Declare the analysis' }).click();

  await expect(finding(page)).toContainText('On 26 July 2027');
  await expect(finding(page)).toContainText('One trial, one site and season: not a recommendation.');
  const table = page.getByRole('table', { name: 'Weedy grass cover, 26 July 2027' });
  await expect(table.getByRole('row')).toHaveCount(5);
  await expect(table.getByRole('row', { name: /^4/ })).toContainText('5 of 5');
  await expect(main).toContainText('8 plots without a value: 301, 302, 303, 304, 401, 402, 403 and 404.');

  await part(page, 'Pictures');
  await expect(page.getByRole('heading', { name: /^Untreated beside treated/ })).toBeVisible();
  await expect(main).toContainText('nearest their treatment means');
  // rows draw their pictures when they come near the window
  await page.getByRole('heading', { name: 'Plots by date' }).scrollIntoViewIfNeeded();
  await expect(page.getByRole('table').getByRole('link').first()).toBeVisible();
  await page.getByRole('radio', { name: 'Masks' }).check();
  expect(await axeFindings(page)).toEqual([]);

  await part(page, 'Turf');
  await expect(page.getByRole('columnheader', { name: 'Dark green colour index' })).toBeVisible();
  await expect(main).toContainText('compared with the control within one date only');

  // an amendment asks for a reason and leaves what was declared before
  await part(page, 'Declared');
  await page.getByRole('button', { name: 'Amend the declaration' }).click();
  await page.getByLabel('Transformation').selectOption('arcsine-square-root');
  await expect(page.getByRole('button', { name: 'Keep the amendment' })).toBeDisabled();
  await page.getByLabel('Reason for the amendment').fill('variances differ');
  await page.getByRole('button', { name: 'Keep the amendment' }).click();
  await expect(main).toContainText(/Amended by K, .*: variances differ/);
  await expect(page.getByRole('region', { name: 'Earlier declarations' })).toContainText(/Declared by K/);
  await part(page, 'Result');
  await expect(finding(page)).not.toContainText('interval');
});

test('every part of a trial with twelve treatments: seen by axe in both themes, on desk and phone', async ({
  profile,
}) => {
  test.setTimeout(120_000);
  const page = await profile.open();
  await compareMadeUp(page, {
    treatments: 12,
    blocks: 4,
    dates: 3,
    cover: usual,
    plan: (made) => ({
      ...made,
      exclusions: [{ id: 'X1', plot: '1003', ratingDate: null, variable: null, reason: 'flooded', by: 'K' }],
    }),
  });
  await expect(finding(page)).toContainText('weedy grass cover was lower in');
  for (const [width, height, scheme, parts] of [
    [1440, 900, 'light', PARTS],
    [390, 844, 'dark', ['Result', 'Pictures', 'Declared']],
  ] as const) {
    await page.setViewportSize({ width, height });
    await page.emulateMedia({ colorScheme: scheme });
    for (const name of parts) {
      await part(page, name);
      await expect(page.getByRole('main')).toContainText('The product label and local regulations decide');
      expect(await axeFindings(page), `${name}, ${width} px, ${scheme}`).toEqual([]);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(wide, `${name} is wider than the window`).toBeLessThanOrEqual(0);
    }
  }
  await part(page, 'Checks');
  await expect(
    page.getByRole('region', { name: 'With and without exclusions' }).getByRole('table'),
  ).toHaveCount(1);
  await expect(page.getByRole('main')).toContainText(/all plots/i);
});

test('figures and the comparison are saved: SVG, PNG for print and slide, JSON', async ({ page }) => {
  await compareMadeUp(page, { treatments: 4, blocks: 4, dates: 3, cover: usual });
  await expect(page.getByRole('figure')).toHaveCount(2);
  const bars = page.getByRole('figure').first();
  await bars.getByText('Save picture').click();
  for (const [name, ending] of [
    [/^SVG/, '.svg'],
    [/^PNG for print/, '.png'],
    [/^PNG for a slide/, '.png'],
  ] as const) {
    const download = page.waitForEvent('download');
    await bars.getByRole('button', { name }).click();
    const file = await download;
    expect(file.suggestedFilename()).toContain(ending);
    const bytes = readFileSync(await file.path());
    if (ending === '.png') expect(bytes.subarray(1, 4).toString()).toBe('PNG');
    else {
      // n, interval and caution stand on the picture itself
      const svg = bytes.toString();
      for (const words of ['n = 4', '95 %', 'label']) expect(svg).toContain(words);
    }
  }
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the comparison (JSON)' }).click();
  const saved = JSON.parse(readFileSync(await (await download).path(), 'utf8'));
  expect(saved).toMatchObject({ type: 'comparison', version: 1, caution: expect.any(String) });
  expect(saved.analyses).toHaveLength(3);
  // the number on screen is the number in the file
  const mean = saved.analyses[2].treatments[3].mean as number;
  const row = page.getByRole('table', { name: /^Weedy grass cover/ }).getByRole('row', { name: /^4/ });
  await expect(row).toContainText(mean.toFixed(1));
});

const STATES: readonly (readonly [name: string, trial: MadeUpTrial, says: readonly RegExp[]])[] = [
  [
    'no photos yet',
    { treatments: 4, blocks: 4, dates: 0, cover: usual },
    [/No plot has a value of weedy grass cover yet/, /Nothing was rated on/],
  ],
  ['one date', { treatments: 4, blocks: 4, dates: 1, cover: usual }, [/was lower/]],
  ['one block', { treatments: 4, blocks: 1, dates: 2, cover: usual }, [/no difference can be tested/]],
  [
    'missing plots',
    {
      treatments: 4,
      blocks: 4,
      dates: 2,
      cover: (at) => (at.treatment === 2 && at.block === 3 ? null : usual(at)),
    },
    [/1 plot without a value/, /least-squares means/],
  ],
  [
    'control missing',
    { treatments: 4, blocks: 4, dates: 2, cover: usual, control: false },
    [/No untreated control takes part/],
  ],
  ['thirty dates', { treatments: 4, blocks: 4, dates: 30, cover: ({ random }) => 30 * random() + 5 }, [/./]],
  [
    'all zero',
    { treatments: 4, blocks: 4, dates: 2, cover: () => 0 },
    [/do not vary at all/, /pressure was low/],
  ],
  ['no blocks', { treatments: 3, blocks: 0, replicates: 5, dates: 2, cover: usual }, [/was lower/]],
];

test('each state has its words', async ({ profile }) => {
  test.setTimeout(120_000);
  const page = await profile.open();
  await expect(page.getByRole('link', { name: 'Compare', exact: true })).toBeVisible();
  await page.goto('#/compare');
  await expect(page.getByRole('link', { name: 'Plan the trial' })).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);
  await page.goto('#/');
  for (const [name, trial, says] of STATES) {
    await page.goto('#/');
    await page.evaluate(async () => {
      const opened = indexedDB.open('swardbook');
      await new Promise((done) => {
        opened.onsuccess = done;
      });
      const names = ['trials', 'declarations', 'photos', 'figures'];
      const transaction = opened.result.transaction(names, 'readwrite');
      for (const table of names) transaction.objectStore(table).clear();
      await new Promise((done) => {
        transaction.oncomplete = done;
      });
      opened.result.close();
    });
    await putRecords(page, madeUpRecords(trial));
    await page.goto('#/compare');
    await page.reload();
    for (const words of says) await expect(page.getByRole('main'), name).toContainText(words);
    expect(await axeFindings(page), name).toEqual([]);
    for (const other of ['Over dates', 'Pictures', 'Turf', 'Checks']) {
      await part(page, other);
      await expect(page.getByRole('main')).toContainText('The product label and local regulations decide');
    }
  }
});
