import { cp, mkdtemp, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { addPhotos, test as base, expect, measured, Profile } from './app.ts';
import { axeFindings } from './axe.ts';
import { built, type Host, startHost } from './host.ts';

const test = base.extend<{ host: Host; user: Profile; folder: string }>({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the fixtures a function needs from its pattern
  folder: async ({}, use) => {
    const folder = await mkdtemp(join(tmpdir(), 'swardbook-offline-'));
    await use(folder);
    await rm(folder, { recursive: true, force: true, maxRetries: 5 });
  },
  // biome-ignore lint/correctness/noEmptyPattern: as above
  host: async ({}, use) => {
    const host = await startHost(built);
    await use(host);
    await host.goAway();
  },
  user: async ({ folder, host, complaints }, use) => {
    const user = new Profile(join(folder, 'profile'), host.address, complaints);
    await use(user);
    await user.close();
  },
});

const readyForTheField = (page: Page) =>
  expect(page.getByRole('status').filter({ hasText: /^Ready for the field/ })).toBeVisible();

test('once it says so, the program opens, measures and shows every screen without a network', async ({
  user,
  host,
}) => {
  const page = await user.open({ serviceWorkers: 'allow' });
  await readyForTheField(page);
  expect(await axeFindings(page)).toEqual([]);
  expect(host.asked.some((path) => path.endsWith('.jpg'))).toBe(false);
  await host.goAway();
  await page.reload();
  await addPhotos(page, ['2027-05-17_101.jpg', '2027-05-17_102.jpg']);
  await measured(page, 2);
  for (const screen of await page.getByRole('navigation').getByRole('link').all()) {
    await screen.click();
    await expect(page.getByRole('main').getByRole('heading').first()).toBeVisible();
  }
  await user.close();

  const later = await user.open({ serviceWorkers: 'allow' }, '#/photos');
  await measured(later, 2);
});

/** The same program as a later build: another name for one of its parts, and another mark on its page. */
async function laterBuild(folder: string): Promise<string> {
  const later = join(folder, 'later');
  await cp(built, later, { recursive: true });
  const assets = await readdir(join(later, 'assets'));
  const part = assets.find((name) => /^PlanScreen-.*\.js$/.test(name))!;
  const renamed = part.replace(/-.*\.js$/, '-LATERONE.js');
  const texts = ['index.html', 'service-worker.js', ...assets.map((name) => `assets/${name}`)];
  for (const name of texts.filter((one) => /\.(js|html)$/.test(one))) {
    const text = await readFile(join(later, name), 'utf8');
    const changed = text.replaceAll(part, renamed).replace(/(var e=`)[0-9a-f]{16}/, '$1the-later-build');
    await writeFile(join(later, name), changed.replace('<title>Swardbook', '<title>Swardbook, later'));
  }
  await rename(join(later, 'assets', part), join(later, 'assets', renamed));
  return later;
}

test('a newer version is offered and waits; a tab that stays with the old one goes on working', async ({
  user,
  host,
  folder,
}) => {
  const page = await user.open({ serviceWorkers: 'allow' });
  await readyForTheField(page);
  const oldTab = await user.openTab();
  await addPhotos(page, ['2027-05-17_101.jpg']);
  await measured(page, 1);
  host.serve(await laterBuild(folder));
  await page.evaluate(async () => void (await navigator.serviceWorker.getRegistration())?.update());
  const offer = page.getByRole('button', { name: 'Use the new version' });
  await expect(offer).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);
  // not forced: a reload without choosing it still is the version in use
  await page.reload();
  await expect(page).toHaveTitle('Swardbook');
  await offer.click();
  await expect(page).toHaveTitle('Swardbook, later');
  await measured(page, 1);
  await page.getByRole('navigation').getByRole('link', { name: 'Plan' }).click();
  await expect(page.getByRole('main').getByRole('heading').first()).toBeVisible();
  // the old tab fetches parts that no server has any more
  await expect(oldTab).toHaveTitle('Swardbook');
  await oldTab.getByRole('navigation').getByRole('link', { name: 'Plan' }).click();
  await expect(oldTab.getByRole('main').getByRole('heading').first()).toBeVisible();
});
