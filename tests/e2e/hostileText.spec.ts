import { readFile } from 'node:fs/promises';
import type { Download, Page } from '@playwright/test';
import Papa from 'papaparse';
import { blobSource } from '../../src/app/session/archive/blobSource.ts';
import type { TrialPlan } from '../../src/core/trial/trialPlan.ts';
import { openZip } from '../../src/zip/zipReader.ts';
import { madeUpRecords, putRecords } from '../support/madeUpTrial.ts';
import { addPhotos, expect, measured, sample, test } from './app.ts';
import { overflowing, sign, visit, walk } from './walk.ts';

/** Would run if it were taken for markup, a formula or an address; turns text round; hides; is long without a break. */
const SHORT = '=<img src=x onerror=hostile()>\u202EGNP\u200B';
const NAME = `${SHORT}"><svg onload=hostile()>'--مرحبا javascript:hostile() ${'W'.repeat(90)}`;
const NOTES = `+cmd|' /C calc'!A0 </textarea><script>hostile()</script> \${hostile()} {{hostile()}} ${'W'.repeat(4800)}`;
const LONG_NAME = `${SHORT}${'W'.repeat(10_000)}.jpg`;

function hostile(plan: TrialPlan): TrialPlan {
  const { trial } = plan;
  return {
    ...plan,
    trial: {
      ...trial,
      name: NAME,
      objective: NOTES,
      site: { ...trial.site, name: NAME, notes: NOTES },
      turf: { species: NAME, cultivar: NAME, sownOver: NAME },
      mowing: { ...trial.mowing, notes: NOTES },
      soil: NOTES,
      irrigation: NOTES,
      raters: [NAME.slice(0, 60).trim()],
      classes: trial.classes.map((one, index) => ({
        ...one,
        name: `${index}${SHORT}`.slice(0, 60),
        reportingGroup: `${SHORT}${index}`.slice(0, 60),
      })),
    },
    treatments: plan.treatments.map((one) => ({ ...one, name: NAME, notes: NOTES })),
    ratings: [],
  };
}

/** The photo with an EXIF block that names a camera. */
function withCamera(jpeg: Buffer, make: string, model: string): Buffer {
  const texts = [make, model].map((text) => Buffer.from(`${text}\0`, 'latin1'));
  const tiff = Buffer.alloc(8 + 2 + 24 + 4);
  tiff.write('II*\0', 0, 'latin1');
  tiff.writeUInt32LE(8, 4);
  tiff.writeUInt16LE(2, 8);
  let at = tiff.length;
  for (const [index, text] of texts.entries()) {
    const entry = 10 + 12 * index;
    tiff.writeUInt16LE(index === 0 ? 0x010f : 0x0110, entry);
    tiff.writeUInt16LE(2, entry + 2);
    tiff.writeUInt32LE(text.length, entry + 4);
    tiff.writeUInt32LE(at, entry + 8);
    at += text.length;
  }
  const exif = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff, ...texts]);
  const head = Buffer.from([0xff, 0xe1, 0, 0]);
  head.writeUInt16BE(exif.length + 2, 2);
  return Buffer.concat([jpeg.subarray(0, 2), head, exif, jpeg.subarray(2)]);
}

/** What ran that must not. */
const ran = (page: Page) => page.evaluate(() => (window as unknown as { ran?: number }).ran ?? 0);

async function bytesOf(download: Download): Promise<Buffer> {
  return readFile((await download.path())!);
}

/** A text that a spreadsheet would run: its own first signs, and the wide forms that some take for them. */
const RUNS = /^[=+@\t\r\uFF1D\uFF0B\uFF20]|^-(?!\d+(\.\d+)?$)/;

/** Cells of the tables in a zip file that a spreadsheet would run, and how many cells there are. */
async function formulasIn(zip: Buffer): Promise<{ cells: number; formulas: string[] }> {
  const opening = await openZip(blobSource(new Blob([new Uint8Array(zip)])));
  if (!opening.ok) throw new Error(JSON.stringify(opening.problem));
  const formulas: string[] = [];
  let cells = 0;
  for (const { path } of opening.zip.entries.filter((entry) => entry.path.endsWith('.csv'))) {
    const text = new TextDecoder().decode(await opening.zip.read(path));
    for (const cell of Papa.parse<string[]>(text).data.flat()) {
      cells += 1;
      if (RUNS.test(cell)) formulas.push(`${path}: ${cell.slice(0, 60)}`);
    }
  }
  return { cells, formulas };
}

test('hostile names, notes, cameras and classes: nothing runs, nothing sticks out, tables are guarded', async ({
  profile,
}) => {
  test.setTimeout(180_000);
  const page = await profile.open({ viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true });
  await page.addInitScript(() => {
    Object.assign(window, {
      ran: 0,
      hostile: () => Object.assign(window, { ran: 1 }),
      showSaveFilePicker: undefined,
    });
  });
  const camera = (await readFile(sample('2027-05-17_101.jpg'))) as Buffer;
  const others = await readFile(sample('2027-05-17_102.jpg'));
  await page.reload();
  await addPhotos(page, [
    { name: LONG_NAME, mimeType: 'image/jpeg', buffer: withCamera(camera, SHORT, NAME) },
    {
      name: `${SHORT}2027-05-17_1001.jpg`,
      mimeType: 'image/jpeg',
      buffer: withCamera(others, '@SUM(1)', NAME),
    },
    { name: `${NAME}.jpg`, mimeType: 'image/jpeg', buffer: Buffer.from(NOTES) },
  ]);
  await measured(page, 2);
  expect(await overflowing(page)).toEqual([]);
  const records = madeUpRecords({
    treatments: 3,
    blocks: 4,
    dates: 2,
    cover: ({ treatment, random }) => 10 * treatment + 5 * random(),
    plan: hostile,
  });
  const photos = records.photos!.map((photo, index) => (index === 0 ? { ...photo, name: NAME } : photo));
  // a date is signed off over figures of different photos
  const figures = records.figures!.map((figure, index) => ({
    ...figure,
    photoSha256: index.toString(16).padStart(64, '0'),
  }));
  await putRecords(page, { ...records, photos, figures });
  await sign(page, NAME);
  await page.reload();

  const stuckOut: string[] = [];
  const visited = await walk(page, async (path) => {
    expect(await ran(page), path).toBe(0);
    for (const what of await overflowing(page)) stuckOut.push(`${path}: ${what}`);
  });
  console.log(`hostile text on ${visited.length} pages: ${visited.join(' ')}`);
  expect(visited.length).toBeGreaterThan(30);
  expect(stuckOut).toEqual([]);

  await visit(page, '#/report/files');
  const tables = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save tables' }).click();
  const { cells, formulas } = await formulasIn(await bytesOf(await tables));
  expect(cells).toBeGreaterThan(100);
  expect(formulas).toEqual([]);

  await visit(page, '#/report');
  const report = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save as one HTML file' }).click();
  const html = (await bytesOf(await report)).toString('utf8');
  expect(html).toContain('&lt;img src=x onerror=hostile()&gt;');
  const reader = await page.context().newPage();
  await reader.addInitScript(() =>
    Object.assign(window, { hostile: () => Object.assign(window, { ran: 1 }) }),
  );
  await reader.setContent(html);
  expect(await ran(reader)).toBe(0);
  expect(await reader.locator('script, iframe, object, embed, [onload], [onerror]').count()).toBe(0);
});
