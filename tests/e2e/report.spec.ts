import { spawnSync } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium, type Page } from '@playwright/test';
import { BROWSER_FLAGS, findBrowser } from '../support/browser.mjs';
import { type MadeUpTrial, madeUpRecords, putRecords } from '../support/madeUpTrial.ts';
import { addPhotos, expect, measured, test } from './app.ts';
import { axeFindings } from './axe.ts';

const PHOTOS = ['101', '102', '103', '104', '201', '202', '203', '204'].map(
  (plot) => `2027-07-26_${plot}.jpg`,
);

const paper = (page: Page) => page.getByRole('article');
const saving = (page: Page) => page.getByRole('button', { name: 'Save as one HTML file' });

/** Pages and size of a PDF in points, and its text where the machine can read it. */
async function pdfOf(page: Page, folder: string) {
  const bytes = await page.pdf({ preferCSSPageSize: true });
  const path = join(folder, 'report.pdf');
  await writeFile(path, bytes);
  const source = bytes.toString('latin1');
  const [, width, height] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(source)!;
  const read = spawnSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' });
  return {
    pages: source.match(/\/Type \/Page\b/g)!.length,
    size: [Math.round(Number(width)), Math.round(Number(height))],
    /** Null where there is no pdftotext here. */
    text: read.error ? null : read.stdout,
  };
}

async function reportMadeUp(page: Page, trial: MadeUpTrial): Promise<void> {
  // a screen that needs the database: it is there then
  await page.goto('#/plan');
  await expect(page.getByRole('button', { name: 'Use the sample plan' })).toBeVisible();
  await putRecords(page, madeUpRecords(trial));
  await page.goto('#/report');
  await page.reload();
}

const usual: MadeUpTrial['cover'] = ({ treatment, block, date, random }) =>
  Math.max(0, 40 - 3 * treatment + 2 * block + 3 * date + 4 * random());

let folder: string;
test.beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'swardbook-report-'));
});
test.afterEach(() => rm(folder, { recursive: true, force: true, maxRetries: 5 }));

test('the sample trial: what is missing, then a report with its objective, saved as a file that opens alone', async ({
  page,
}) => {
  await page.goto('#/report');
  await expect(page.getByText('Plan the trial first.')).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);

  await page.goto('#/plan');
  await page.getByLabel('Your name or initials').fill('K');
  await page.getByRole('button', { name: 'Use the sample plan' }).click();
  await expect(page.getByRole('heading', { level: 1, name: /Outfield east/ })).toBeVisible();
  await page.goto('#/');
  await addPhotos(page, PHOTOS);
  await measured(page, PHOTOS.length);

  await page.goto('#/report');
  await expect(paper(page)).toContainText('No analysis was declared, so nothing is shown by treatment.');
  await expect(paper(page)).not.toContainText('Appendix');
  await page.getByRole('link', { name: 'Declare it' }).click();
  await page.getByRole('button', { name: 'Declare the analysis' }).click();
  await expect(page.getByRole('region', { name: 'Finding' })).toContainText('2027');
  await page.goto('#/report');

  await page.getByRole('textbox', { name: 'Objective' }).fill('Whether fewer sprays keep weedy grass low.');
  await page.getByLabel('Your name or initials').fill('K');
  await page.getByRole('button', { name: 'Keep the objective' }).click();
  await expect(paper(page)).toContainText('Whether fewer sprays keep weedy grass low.');
  await expect(paper(page)).toContainText('8 photos taken from above were measured');
  await expect(paper(page)).toContainText('No points were counted');
  await expect(
    paper(page)
      .getByRole('img', { name: /^Plot \d+ from above/ })
      .first(),
  ).toBeVisible();
  await expect(saving(page)).toBeEnabled();
  expect(await axeFindings(page)).toEqual([]);

  const download = page.waitForEvent('download');
  await saving(page).click();
  const saved = await download;
  expect(saved.suggestedFilename()).toMatch(/^[0-9A-Z]{6}-report\.html$/);
  const path = join(folder, saved.suggestedFilename());
  await saved.saveAs(path);
  await expect(page.getByText(/It opens in any browser, without a network/)).toBeVisible();
  const html = await readFile(path, 'utf8');
  expect(html).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org\/2000\/svg)/);

  const { executablePath, env } = await findBrowser();
  const browser = await chromium.launch({
    executablePath,
    args: BROWSER_FLAGS,
    env: { ...process.env, ...env } as Record<string, string>,
  });
  try {
    const context = await browser.newContext({ offline: true, viewport: { width: 390, height: 844 } });
    const alone = await context.newPage();
    const requests: string[] = [];
    const complaints: string[] = [];
    alone.on('request', (request) => requests.push(new URL(request.url()).protocol));
    alone.on('console', (message) => complaints.push(message.text()));
    await alone.goto(pathToFileURL(path).href);
    expect(requests.filter((protocol) => protocol !== 'data:')).toEqual(['file:']);
    await expect(alone.getByRole('heading', { level: 1, name: /Outfield east/ })).toBeVisible();
    await expect(alone.getByRole('article')).toContainText('Whether fewer sprays keep weedy grass low.');
    const pictures = await alone
      .getByRole('img', { name: /^Plot/ })
      .evaluateAll((all) =>
        (all as HTMLImageElement[]).map(({ src, naturalWidth }) => ({ src, naturalWidth })),
      );
    // one typical plot of each treatment, and every photo
    expect(pictures).toHaveLength(4 + PHOTOS.length);
    for (const { src, naturalWidth } of pictures) {
      expect(naturalWidth).toBeGreaterThan(100);
      const bytes = Buffer.from(src.replace(/^data:image\/jpeg;base64,/, ''), 'base64').toString('latin1');
      expect(bytes.startsWith('\xff\xd8')).toBe(true);
      expect(bytes).not.toContain('Exif');
    }
    const wide = await alone.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(wide).toBeLessThanOrEqual(0);
    expect(complaints).toEqual([]);
  } finally {
    await browser.close();
  }
});

test('on paper: sizes, page numbers, heads again on every page, and only what a copy is to hold', async ({
  page,
}) => {
  await reportMadeUp(page, { treatments: 12, blocks: 4, dates: 3, cover: usual });
  await expect(paper(page)).toContainText('weedy grass cover was lower');
  await expect(saving(page)).toBeEnabled();
  const long = await pdfOf(page, folder);
  expect(long.size).toEqual([595, 842]);
  // 144 rows of the appendix alone take three pages
  expect(long.pages).toBeGreaterThan(9);
  expect(long.pages).toBeLessThan(30);
  if (long.text !== null) {
    const pages = long.text.split('\f').slice(0, long.pages);
    pages.forEach((text, index) => {
      expect(text).toContain(`${index + 1} / ${long.pages}`);
      expect(text).toContain('Outfield west');
      expect(text).toContain('Product label and local regulations decide.');
    });
    const appendix = pages.filter((text) => /^\s*\d{4}\s.*\.jpg/m.test(text));
    expect(appendix.length).toBeGreaterThan(2);
    for (const text of appendix) expect(text).toMatch(/Plot\s+Block\s+Treatment\s+Date\s+Photo/);
  }
  await page.emulateMedia({ media: 'print' });
  const heads = paper(page).locator('thead');
  expect(await heads.first().evaluate((head) => getComputedStyle(head).display)).toBe('table-header-group');
  await expect(page.getByRole('navigation').first()).toBeHidden();
  await page.emulateMedia({ media: null });

  await page.getByRole('radio', { name: 'Letter' }).check();
  await page.getByRole('radio', { name: 'Numbers only' }).check();
  await page.getByRole('radio', { name: 'Field day' }).check();
  await expect(paper(page)).toContainText('Treatments are shown by number');
  await expect(paper(page)).not.toContainText('L-3');
  const short = await pdfOf(page, folder);
  expect(short.size).toEqual([612, 792]);
  expect(short.pages).toBeLessThanOrEqual(2);

  await page.getByRole('radio', { name: 'Full report' }).check();
  await page.getByRole('group', { name: 'Rating dates' }).getByRole('checkbox').first().uncheck();
  await expect(paper(page)).toContainText('This copy holds');
  await expect(paper(page)).not.toContainText('Mean over time');
});

test('choices, signs and files: seen by axe on desk and phone, in both themes', async ({ page }) => {
  await reportMadeUp(page, { treatments: 4, blocks: 4, dates: 2, cover: usual });
  for (const [width, height, scheme] of [
    [1440, 900, 'light'],
    [390, 844, 'dark'],
  ] as const) {
    await page.setViewportSize({ width, height });
    await page.emulateMedia({ colorScheme: scheme });
    for (const part of ['Report', 'Plot signs', 'Files']) {
      await page
        .getByRole('navigation', { name: 'Parts of the report' })
        .getByRole('link', { name: part, exact: true })
        .click();
      await expect(page.getByRole('status').filter({ hasText: 'Gathering' })).toHaveCount(0);
      if (part === 'Report') await expect(saving(page)).toBeEnabled();
      expect(await axeFindings(page), `${part}, ${width} px, ${scheme}`).toEqual([]);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(wide, `${part} is wider than the window`).toBeLessThanOrEqual(0);
    }
  }
  await page.getByRole('navigation', { name: 'Parts of the report' }).getByText('Plot signs').click();
  const signs = page.getByRole('article', { name: 'Signs' });
  await expect(signs.getByRole('listitem')).toHaveCount(16);
  await expect(signs).not.toContainText('Treatment');
  expect((await pdfOf(page, folder)).pages).toBe(16);
  await page.getByRole('radio', { name: 'Four' }).check();
  await page.getByRole('radio', { name: 'Number', exact: true }).check();
  await expect(signs).toContainText('Treatment 2');
  await expect(signs).not.toContainText('L-31');
  expect((await pdfOf(page, folder)).pages).toBe(4);
});
