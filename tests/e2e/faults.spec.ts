import { appendFile, mkdir, readdir, truncate, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from '@playwright/test';
import { BROWSER_FLAGS, findBrowser } from '../support/browser.mjs';
import { addPhotos, expect, measured, type Profile, test } from './app.ts';
import { axeFindings } from './axe.ts';

const FIRST = '2027-05-17_101.jpg';
const SECOND = '2027-05-17_102.jpg';

const trouble = (page: Page, words: string | RegExp) => page.getByRole('alert').filter({ hasText: words });

/** Presses the way out of a notice and reads the file that is offered. */
async function savedRecords(page: Page): Promise<{ tables: Record<string, { name?: string }[]> }> {
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the raw records' }).click();
  const pieces: Buffer[] = [];
  for await (const piece of await (await download).createReadStream()) pieces.push(piece);
  return JSON.parse(Buffer.concat(pieces).toString('utf8'));
}

const namesIn = ({ tables }: Awaited<ReturnType<typeof savedRecords>>) =>
  tables.photos!.map(({ name }) => name);

/** Speaks to the browser about the storage of the page's address. */
async function storageOf(page: Page) {
  const devtools = await page.context().newCDPSession(page);
  const { origin } = new URL(page.url());
  return {
    allow: (quotaSize: number) => devtools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize }),
    clear: (storageTypes: string) => devtools.send('Storage.clearDataForOrigin', { origin, storageTypes }),
  };
}

/** A page of the program's address without the program in it. */
async function openBesideTheProgram(profile: Profile): Promise<Page> {
  const page = await profile.open({}, 'about:blank');
  // a picture brings no icon of its own, and the browser would ask for one
  await page.route('**/favicon.ico', (route) => route.fulfill({ status: 204 }));
  await page.goto('icon.svg');
  return page;
}

test('no room: the photo that did not fit is named, the others stay and can be saved', async ({
  profile,
}) => {
  const page = await openBesideTheProgram(profile);
  // before the database is opened: Chromium asks for the room once and reckons on
  await (await storageOf(page)).allow(800_000);
  await page.goto('');
  await addPhotos(page, [FIRST]);
  await measured(page, 1);
  await addPhotos(page, [SECOND]);
  const notice = trouble(page, 'No space is left for Swardbook, which keeps');
  await expect(notice).toBeVisible();
  await expect(page.getByText('This browser has no space left.')).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);
  expect(namesIn(await savedRecords(page))).toEqual([FIRST]);
  await profile.close();

  const withRoom = await profile.open();
  await measured(withRoom, 1);
  await addPhotos(withRoom, [SECOND]);
  await measured(withRoom, 2);
  await expect(withRoom.getByRole('alert')).toHaveCount(0);
});

test('data cleared under the open page: what is on screen stays, and the loss is said until it is read', async ({
  page,
  complaints,
}) => {
  await addPhotos(page, [FIRST]);
  await measured(page, 1);
  await (await storageOf(page)).clear('indexeddb');
  const closed = trouble(page, 'The browser closed the place where the photos are kept');
  await expect(closed).toBeVisible();
  await measured(page, 1);
  await closed.getByRole('button', { name: 'Save the raw records' }).click();
  await expect(closed).toContainText('There are no records left in this browser to save.');
  expect(await axeFindings(page)).toEqual([]);
  // parts that were at work with the database tell the console why they stopped
  for (const told of complaints.splice(0)) expect(told).toMatch(/^console:/);

  await page.reload();
  const lost = trouble(page, /^1 photo was kept in this browser on .* is no longer there/);
  await expect(lost).toBeVisible();
  await expect(page.getByRole('button', { name: 'Open photos' })).toBeEnabled();
  expect(await axeFindings(page)).toEqual([]);
  await lost.getByRole('button', { name: 'Understood' }).click();
  await expect(lost).toHaveCount(0);
  await page.reload();
  await expect(page.getByRole('button', { name: 'Open photos' })).toBeEnabled();
  await addPhotos(page, [FIRST]);
  await measured(page, 1);
  await expect(lost).toHaveCount(0);
});

test('photos taken out by hand are no loss', async ({ page }) => {
  await addPhotos(page, [FIRST]);
  await measured(page, 1);
  await page.getByRole('checkbox', { name: `Select ${FIRST}` }).check();
  await page.getByRole('button', { name: 'Remove', exact: true }).first().click();
  await page.getByRole('dialog').getByRole('button', { name: 'Remove' }).click();
  await expect(page.getByRole('button', { name: 'Open photos' })).toBeEnabled();
  await page.reload();
  await expect(page.getByRole('button', { name: 'Open photos' })).toBeEnabled();
  await expect(page.getByRole('alert')).toHaveCount(0);
});

test('a browser that forbids all storage says so, with the way out', async ({ profile }) => {
  await mkdir(join(profile.folder, 'Default'), { recursive: true });
  // content setting 2: block; what "block all site data" writes in Chromium
  const blocked = { profile: { default_content_setting_values: { cookies: 2 } } };
  await writeFile(join(profile.folder, 'Default', 'Preferences'), JSON.stringify(blocked));
  const page = await profile.open();
  await expect(trouble(page, 'Nothing can be kept here')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Save the raw records' })).toHaveCount(0);
  expect(await axeFindings(page)).toEqual([]);
});

test('in a private window on a phone the program works, and says what it forgets', async ({ baseURL }) => {
  const { executablePath, env } = await findBrowser();
  let browser: Browser | null = null;
  try {
    browser = await chromium.launch({
      executablePath,
      args: BROWSER_FLAGS,
      env: { ...process.env, ...env } as Record<string, string>,
    });
    const context = await browser.newContext({
      viewport: { width: 390, height: 844 },
      isMobile: true,
      hasTouch: true,
      serviceWorkers: 'block',
    });
    const page = await context.newPage();
    await page.goto(baseURL!);
    await expect(page.getByRole('button', { name: 'Open photos' })).toBeEnabled();
    await addPhotos(page, [FIRST]);
    await measured(page, 1);
    const remark = page.getByRole('status').filter({ hasText: 'a private window forgets all' });
    await expect(remark).toBeVisible();
    expect(await axeFindings(page)).toEqual([]);
    await remark.getByRole('button', { name: 'Understood' }).click();
    await page.reload();
    await measured(page, 1);
    await expect(remark).toHaveCount(0);
  } finally {
    await browser?.close();
  }
});

test('an older version in another tab is waited for, and the page goes on when it is closed', async ({
  profile,
}) => {
  const page = await openBesideTheProgram(profile);
  await page.evaluate(
    () =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('swardbook', 10);
        opening.onupgradeneeded = () => {
          const { result } = opening;
          for (const [name, key] of [
            ['photos', 'id'],
            ['photoBytes', 'photoId'],
            ['thumbnails', 'photoId'],
            ['figures', 'id'],
            ['jobs', 'photoId'],
            ['settings', 'name'],
          ] as const) {
            result.createObjectStore(name, { keyPath: key });
          }
        };
        opening.onerror = () => reject(opening.error);
        // held open whatever asks for it
        opening.onsuccess = () => {
          (window as unknown as { held: unknown }).held = opening.result;
          resolve();
        };
      }),
  );
  const waiting = await profile.openTab();
  const notice = trouble(waiting, 'Another tab holds an older version open');
  await expect(notice).toBeVisible();
  expect(await axeFindings(waiting)).toEqual([]);
  await page.close();
  await expect(notice).toHaveCount(0);
  await addPhotos(waiting, [FIRST]);
  await measured(waiting, 1);
});

test('a database that cannot be brought to this version is left as it was, and can be saved', async ({
  profile,
}) => {
  const page = await openBesideTheProgram(profile);
  // of version 1, but for the table of photos, which has no key
  await page.evaluate(
    () =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('swardbook', 10);
        opening.onupgradeneeded = () => {
          const { result } = opening;
          result.createObjectStore('photos').put({ id: 'photo-1', name: 'of-old.jpg' }, 'photo-1');
          for (const name of ['photoBytes', 'thumbnails', 'jobs']) {
            result.createObjectStore(name, { keyPath: 'photoId' });
          }
        };
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          opening.result.close();
          resolve();
        };
      }),
  );
  await page.goto('');
  const notice = trouble(page, 'could not be brought to this version');
  await expect(notice).toBeVisible();
  await expect(page.getByRole('button', { name: 'Open photos' })).toHaveCount(0);
  expect(await axeFindings(page)).toEqual([]);
  expect(namesIn(await savedRecords(page))).toEqual(['of-old.jpg']);
  const version = await page.evaluate(async () => (await indexedDB.databases())[0]!.version);
  expect(version).toBe(10);
});

test('damaged records are counted, kept and saved, and the others are shown', async ({ page }) => {
  await addPhotos(page, [FIRST, SECOND]);
  await measured(page, 2);
  await page.evaluate(
    (name) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('swardbook');
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const store = opening.result.transaction('photos', 'readwrite').objectStore('photos');
          const reading = store.getAll();
          reading.onsuccess = () => {
            const record = reading.result.find((one) => one.name === name);
            store.put({ ...record, widthPx: 'damaged' }).onsuccess = () => {
              opening.result.close();
              resolve();
            };
          };
        };
      }),
    SECOND,
  );
  await page.reload();
  await measured(page, 1);
  await expect(trouble(page, '1 record in this browser cannot be read.')).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);
  expect(namesIn(await savedRecords(page)).sort()).toEqual([FIRST, SECOND]);
});

test('a database whose files are damaged on disk is missed and not taken for a first visit', async ({
  profile,
}) => {
  const page = await profile.open();
  await addPhotos(page, [FIRST]);
  await measured(page, 1);
  await profile.close();
  const databases = join(profile.folder, 'Default', 'IndexedDB');
  const folder = (await readdir(databases)).find((name) => name.endsWith('.leveldb'))!;
  const files = (await readdir(join(databases, folder))).filter((name) => /^(MANIFEST|CURRENT)/.test(name));
  expect(files.length).toBeGreaterThan(0);
  for (const name of files) {
    await truncate(join(databases, folder, name), 0);
    await appendFile(join(databases, folder, name), 'damaged');
  }
  const again = await profile.open();
  await expect(trouble(again, /no longer there|cannot be opened/)).toBeVisible();
});
