import type { Page } from '@playwright/test';
import { expect, type Profile, sample, test } from './app.ts';
import { axeFindings } from './axe.ts';

const PHONE = { viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, isMobile: true, hasTouch: true };
const PHOTOS = ['2027-05-17_101.jpg', '2027-05-17_104.jpg'];

const openGerman = (profile: Profile, options = {}) => profile.open({ locale: 'de-DE', ...options });

const go = (page: Page, screen: string) =>
  page.getByRole('navigation', { name: 'Bereiche' }).getByRole('link', { name: screen, exact: true }).click();

/** What is on screen fits its width, and axe finds nothing (it looks at the language of the page, too). */
async function fitsAndIsAccessible(page: Page): Promise<void> {
  await expect(page.getByRole('main').getByRole('heading').first()).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);
  const { scrollWidth, innerWidth } = await page.evaluate(() => ({
    scrollWidth: document.documentElement.scrollWidth,
    innerWidth: window.innerWidth,
  }));
  expect(scrollWidth).toBeLessThanOrEqual(innerWidth);
}

async function addAndMeasure(page: Page): Promise<void> {
  await page
    .getByLabel('Fotos öffnen')
    .and(page.locator('input[type=file]'))
    .setInputFiles(PHOTOS.map(sample));
  await expect(page.getByRole('main').getByRole('img', { name: /^Deckung:/ })).toHaveCount(PHOTOS.length, {
    timeout: 60_000,
  });
}

test('a device that speaks German gets German, on a phone too, from the first screen to a called point', async ({
  profile,
}) => {
  const page = await openGerman(profile, PHONE);
  await expect(page.locator('html')).toHaveAttribute('lang', 'de');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(
    'Deckungsgrad aus Fotos von Rasenparzellen',
  );
  await fitsAndIsAccessible(page);
  for (const screen of ['Plan', 'Vergleich', 'Bericht']) {
    await go(page, screen);
    await fitsAndIsAccessible(page);
  }

  await page.goto('#/');
  await addAndMeasure(page);
  await expect(page.getByText('17. Mai 2027').first()).toBeVisible();
  await fitsAndIsAccessible(page);

  await page.getByRole('link', { name: `Deckung von ${PHOTOS[0]} zeigen` }).click();
  await expect(page.getByText('Automatische Schätzung')).toBeVisible();
  await expect(page.getByText('Raigras').first()).toBeVisible();
  await fitsAndIsAccessible(page);

  await go(page, 'Punkte');
  await fitsAndIsAccessible(page);
  await page.getByRole('navigation', { name: 'Teile der Punktzählung' }).getByText('Punkte legen').click();
  await page.getByLabel('Jedes Foto').check();
  await fitsAndIsAccessible(page);
  await page.getByRole('button', { name: 'Diese Punkte legen' }).click();
  await expect(page.getByText('Auf 2 Fotos sind Punkte gelegt.')).toBeVisible();
  await page.getByRole('navigation', { name: 'Teile der Punktzählung' }).getByText('Zählen').click();
  await page.getByLabel('Beobachter').fill('K');
  await page.getByRole('button', { name: 'Punkte ansprechen' }).click();
  await expect(page.getByText('Was liegt unter der Marke?')).toBeAttached();
  await expect(page.getByText(/^Punkt 1 von /).first()).toBeVisible();
  await fitsAndIsAccessible(page);
  await page.getByRole('button', { name: /^Ungras/ }).click();
  await expect(page.getByText(/^Punkt 2 von /).first()).toBeVisible();
});

test('a device that speaks neither gets English, in the same words as before', async ({ profile }) => {
  const page = await profile.open({ locale: 'sv-SE' });
  await expect(page.locator('html')).toHaveAttribute('lang', 'en');
  await expect(page.getByRole('button', { name: 'Open photos' })).toBeEnabled();
});

test('a person chooses the language in the help sheet, and it stays chosen', async ({ page, profile }) => {
  const fetched: string[] = [];
  page.on('request', (request) => fetched.push(request.url()));
  await page.reload();
  await expect(page.getByRole('button', { name: 'Open photos' })).toBeEnabled();
  // English pays nothing for the others
  expect(fetched.filter((url) => /german/.test(url))).toEqual([]);

  await page.getByRole('button', { name: 'Keys and help' }).click();
  await page.getByRole('radio', { name: 'Deutsch' }).click();
  await expect(page.getByRole('button', { name: 'Fotos öffnen' })).toBeEnabled();
  expect(fetched.filter((url) => /german/.test(url))).toHaveLength(1);
  await profile.close();

  const again = await profile.open();
  await expect(again.locator('html')).toHaveAttribute('lang', 'de');
  await again.getByRole('button', { name: 'Tasten und Hilfe' }).click();
  await expect(again.getByRole('radio', { name: 'Deutsch' })).toBeChecked();
  expect(await axeFindings(again)).toEqual([]);
  await again.getByRole('radio', { name: 'English' }).click();
  await expect(again.getByRole('button', { name: 'Open photos' })).toBeEnabled();
});
