import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { addPhotos, expect, measured, Profile, test } from './app.ts';
import { axeFindings } from './axe.ts';

const LAST = '2027-05-17_102.jpg';
const PHOTOS = ['2027-04-12_101.jpg', LAST];

/** The picker for places of files cannot be driven headless; without it the browser offers a download. */
const withoutPicker = (page: Page) =>
  page.evaluate(() => Object.defineProperty(window, 'showSaveFilePicker', { value: undefined }));

async function openReport(page: Page): Promise<void> {
  await page.goto('#/report/files');
  await withoutPicker(page);
  await expect(page.getByRole('heading', { name: 'Save an archive' })).toBeVisible();
}

/** Saves an archive through the page; its path on disk. */
async function saveArchive(page: Page, folder: string, what?: string): Promise<string> {
  if (what) await page.getByLabel('What to save').selectOption({ label: what });
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save archive' }).click();
  const saved = await download;
  const path = join(folder, saved.suggestedFilename());
  await saved.saveAs(path);
  await expect(page.getByText(/^Saved: /)).toBeVisible();
  return path;
}

const choose = (page: Page, path: string | { name: string; mimeType: string; buffer: Buffer }) =>
  page.locator('input[type=file][accept*=zip]').setInputFiles(path as never);

const coverWords = async (page: Page) => {
  await page.goto('#/photos');
  await measured(page, PHOTOS.length);
  const bars = page.getByRole('main').getByRole('img', { name: /^Cover:/ });
  return Promise.all((await bars.all()).map((bar) => bar.getAttribute('aria-label')));
};

async function onAnotherDevice(baseURL: string, complaints: string[], work: (page: Page) => Promise<void>) {
  const folder = await mkdtemp(join(tmpdir(), 'swardbook-other-'));
  const profile = new Profile(folder, baseURL, complaints);
  try {
    await work(await profile.open());
  } finally {
    await profile.close();
    await rm(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

test('a trial goes from one device to another and back', async ({ page, baseURL, complaints }) => {
  const folder = await mkdtemp(join(tmpdir(), 'swardbook-archives-'));
  await addPhotos(page, PHOTOS);
  await measured(page, PHOTOS.length);
  const before = await coverWords(page);
  await openReport(page);
  await expect(page.getByText('2 photos exist only on this device.')).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);
  const whole = await saveArchive(page, folder);
  await expect(page.getByText('Every photo here has been saved in an archive.')).toBeVisible();

  await onAnotherDevice(baseURL!, complaints, async (other) => {
    await openReport(other);
    await choose(other, whole);
    await expect(other.getByText('2 photos new here')).toBeVisible();
    expect(await axeFindings(other)).toEqual([]);
    await other.getByRole('button', { name: 'Take in' }).click();
    await expect(other.getByText('Taken in: 2 photos new.')).toBeVisible();
    expect(await coverWords(other)).toEqual(before);
    // nothing is measured again: the figures came along
    await expect(other.getByRole('region', { name: /measuring/i })).toHaveCount(0);

    await openReport(other);
    await choose(other, whole);
    await expect(other.getByText('Everything in it is here already. Nothing to take in.')).toBeVisible();
    await expect(other.getByRole('button', { name: 'Take in' })).toHaveCount(0);

    const again = await saveArchive(other, folder);
    expect(again).toBe(whole);
  });
  await rm(folder, { recursive: true, force: true });
});

test('a part of one date, a damaged file, half a file and a foreign one, in words', async ({ page }) => {
  const folder = await mkdtemp(join(tmpdir(), 'swardbook-archives-'));
  await addPhotos(page, PHOTOS);
  await measured(page, PHOTOS.length);
  await openReport(page);
  const part = await saveArchive(page, folder, 'Only 17 May 2027 (1 photo)');
  await expect(page.getByText('1 photo exists only on this device.')).toBeVisible();
  const bytes = await readFile(part);
  await choose(page, {
    name: 'half.zip',
    mimeType: 'application/zip',
    buffer: bytes.subarray(0, bytes.length / 2),
  });
  await expect(page.getByRole('alert')).toContainText(
    'half.zip was not opened; nothing has changed here. The file has no end',
  );
  expect(await axeFindings(page)).toEqual([]);
  await choose(page, { name: 'notes.zip', mimeType: 'application/zip', buffer: Buffer.from('turf') });
  await expect(page.getByRole('alert')).toContainText('This is no archive');
  await choose(page, part);
  await expect(
    page.getByText('Part of the trial: 17 May 2027. Not in this file: 12 April 2027.'),
  ).toBeVisible();
  await page.getByRole('button', { name: 'Leave it' }).click();
  await rm(folder, { recursive: true, force: true });
});

test('what two people changed is asked for', async ({ page, baseURL, complaints }) => {
  const folder = await mkdtemp(join(tmpdir(), 'swardbook-archives-'));
  await addPhotos(page, [LAST]);
  await measured(page, 1);
  await openReport(page);
  const whole = await saveArchive(page, folder);
  let changed = '';
  await onAnotherDevice(baseURL!, complaints, async (other) => {
    await openReport(other);
    await choose(other, whole);
    await other.getByRole('button', { name: 'Take in' }).click();
    await expect(other.getByText('Taken in: 1 photo new.')).toBeVisible();
    await renamePlot(other, '104');
    await openReport(other);
    changed = await saveArchive(other, folder);
    const elsewhere = join(folder, 'changed.zip');
    await writeFile(elsewhere, await readFile(changed));
    changed = elsewhere;
  });
  await renamePlot(page, '103');
  await openReport(page);
  await choose(page, changed);
  await expect(page.getByRole('heading', { name: '1 difference needs your decision' })).toBeVisible();
  await expect(page.getByRole('group', { name: `${LAST}: plot or date` })).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);
  const takeIn = page.getByRole('button', { name: 'Take in' });
  await expect(takeIn).toBeDisabled();
  await page.getByRole('radio', { name: /Take the archive/ }).check();
  await expect(takeIn).toBeDisabled();
  await page.getByLabel('Your name, for the record of changes').fill('K');
  await takeIn.click();
  await expect(page.getByText('Taken in: 0 photos new.')).toBeVisible();
  await page.goto('#/photos');
  await expect(page.getByText(/plot 104/i).first()).toBeVisible();
  await rm(folder, { recursive: true, force: true });
});

/** Gives the last photo another plot. */
async function renamePlot(page: Page, plot: string): Promise<void> {
  await page.goto('#/photos');
  await page.getByRole('link', { name: `Show the cover of ${LAST}` }).click();
  await page.getByRole('main').getByRole('button', { name: 'Change', exact: true }).click();
  await page.getByRole('dialog').getByLabel('Plot', { exact: true }).fill(plot);
  await page.getByRole('dialog').getByRole('button', { name: 'Save' }).click();
}
