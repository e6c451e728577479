import type { Page } from '@playwright/test';
import {
  addPhotos,
  coverWords,
  expect,
  openCover,
  paintedShare,
  sampleAs,
  settledCover,
  test,
} from './app.ts';
import { axeFindings } from './axe.ts';

const WITH_CARD = '2027-04-12_101.jpg';
/** Its bottom side lies under grass for two thirds. */
const DOUBTFUL = '2027-06-21_404.jpg';
const BLURRED = '2027-07-26_302.jpg';

const corner = (page: Page, name: string) =>
  page.getByRole('button', { name: new RegExp(`^${name} corner`) });
const panel = (page: Page, name: string) => page.getByRole('region', { name });
const stageBox = async (page: Page) => (await page.getByRole('group', { name: /^Photo / }).boundingBox())!;

async function open(page: Page, name: string): Promise<void> {
  await addPhotos(page, [name]);
  await openCover(page, name);
  await settledCover(page);
}

/** Presses on the photo at shares of its width and height. */
async function press(page: Page, places: readonly (readonly [number, number])[]): Promise<void> {
  const box = await stageBox(page);
  const width = Math.min(box.width, (box.height * 4) / 3);
  const height = (width * 3) / 4;
  const [left, top] = [box.x + (box.width - width) / 2, box.y + (box.height - height) / 2];
  for (const [u, v] of places) await page.mouse.click(left + u * width, top + v * height);
}

test('a found frame is measured in and proposed; confirmed with a key, it stays so', async ({ page }) => {
  await open(page, WITH_CARD);
  const area = panel(page, 'Measured area');
  await expect(area).toContainText('Found by the program, not yet confirmed.');
  await expect(area).toContainText(/Confidence 0\.\d\d|Confidence 1\.00/);
  await expect.poll(() => paintedShare(page)).toBeLessThan(0.6);
  const measured = await coverWords(page);
  expect(await axeFindings(page)).toEqual([]);

  await page.keyboard.press('f');
  await expect(area).toContainText('Found by the program, confirmed by a person.');
  await expect(panel(page, 'Grey card')).toContainText('Found by the program, confirmed by a person.');
  await expect(page.getByText('Does the line run along its inner edge?')).toHaveCount(0);
  expect(await coverWords(page)).toBe(measured);

  // dragged: then it is the person's
  await page.getByRole('button', { name: 'Mark again' }).click();
  const box = (await corner(page, 'Top left').boundingBox())!;
  await page.mouse.move(box.x + 24, box.y + 24);
  await page.mouse.down();
  await page.mouse.move(box.x + 84, box.y + 94, { steps: 4 });
  await page.mouse.up();
  await expect(area).toContainText('Marked by hand.');
  await expect.poll(() => coverWords(page)).not.toBe(measured);
  // typed
  const across = page.getByLabel('Bottom right, across (px)');
  await across.fill('700');
  await across.press('Enter');
  await expect(corner(page, 'Bottom right')).toHaveAccessibleName(/across 700,/);
  expect(await axeFindings(page)).toEqual([]);
  await settledCover(page);
  await page.reload();
  await expect(panel(page, 'Measured area')).toContainText('Marked by hand.');
});

test('a doubtful frame is only offered, with what is wrong with it; one press takes it', async ({ page }) => {
  await open(page, DOUBTFUL);
  const area = panel(page, 'Measured area');
  await expect(area).toContainText('A frame may be here');
  await expect(area).toContainText(/Only \d+ % of the frame's bottom side is seen/);
  await expect.poll(() => paintedShare(page)).toBeGreaterThan(0.85);
  expect(await axeFindings(page)).toEqual([]);
  await page.getByRole('button', { name: 'Use this frame' }).click();
  await expect(area).toContainText('Found by the program, confirmed by a person.');
  await expect.poll(() => paintedShare(page)).toBeLessThan(0.6);
});

test('one size serves all photos of the date, and the verdict then judges sharpness', async ({ page }) => {
  const files = [BLURRED, '2027-07-26_401.jpg'];
  await addPhotos(page, files);
  await openCover(page, files[1]!);
  const verdict = panel(page, 'Photo quality');
  await expect(verdict).toContainText('Sharpness and scale are not judged');
  await page.getByLabel('Width', { exact: true }).fill('500');
  await page.getByLabel('Width', { exact: true }).press('Enter');
  await page.getByLabel('Height', { exact: true }).fill('500');
  await page.getByLabel('Height', { exact: true }).press('Enter');
  await page.getByRole('button', { name: 'Use for all photos of 26 Jul 2027' }).click();
  await expect(verdict).not.toContainText('Sharpness and scale are not judged');
  await verdict.getByText('Numbers and limits').click();
  await expect(verdict.getByRole('row', { name: /^Ground in a pixel 0\.8\d mm/ })).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);
});

test('the grey card: found, told in numbers, taken away, marked again by two presses', async ({ page }) => {
  await open(page, WITH_CARD);
  const card = panel(page, 'Grey card');
  await expect(card).toContainText('Found by the program and used, not yet confirmed.');
  await expect(card.getByRole('row', { name: /^Green \d+ × 1\.000 \d+$/ })).toBeVisible();
  await card.getByRole('button', { name: 'This is no card' }).click();
  await expect(card).toContainText('None, by choice.');
  await expect(panel(page, 'Ignored areas')).toContainText('None.');
  await settledCover(page);

  await card.getByRole('button', { name: 'Mark two corners' }).click();
  await expect(card).toContainText('Press two opposite corners');
  expect(await axeFindings(page)).toEqual([]);
  // the card lies at 350..405, 502..557 of 1000 x 750 (sample-images/photos.json)
  await press(page, [
    [0.355, 0.68],
    [0.4, 0.73],
  ]);
  await expect(card).toContainText('Marked by hand.');
  await expect(card.getByRole('row', { name: /^Green \d+ × 1\.000 \d+$/ })).toBeVisible();
});

test('an ignored area is drawn, moved by keys, taken back and removed', async ({ page }) => {
  await open(page, '2027-04-12_102.jpg');
  const ignored = panel(page, 'Ignored areas');
  const before = await paintedShare(page);
  await ignored.getByRole('button', { name: 'Draw an area' }).click();
  await press(page, [
    [0.4, 0.4],
    [0.6, 0.4],
    [0.6, 0.6],
    [0.4, 0.6],
    [0.4, 0.4],
  ]);
  await expect(ignored).toContainText('1 area is left out');
  await settledCover(page);
  await expect.poll(() => paintedShare(page)).toBeLessThan(before - 0.03);

  await ignored.getByRole('button', { name: 'Change area 1' }).click();
  const first = page.getByRole('button', { name: /^Area 1, corner 1,/ });
  await first.focus();
  const name = await first.getAttribute('aria-label');
  await page.keyboard.press('Shift+ArrowRight');
  await expect(first).not.toHaveAccessibleName(name!);
  expect(await axeFindings(page)).toEqual([]);
  await page.keyboard.press('Control+z');
  await expect(first).toHaveAccessibleName(name!);
  // a corner goes while three are left
  await first.focus();
  await page.keyboard.press('Delete');
  await expect(page.getByRole('button', { name: /^Area 1, corner/ })).toHaveCount(3);
  await ignored.getByRole('button', { name: 'Remove area 1' }).click();
  await expect(ignored).toContainText('None.');

  // by keys alone
  await ignored.getByRole('button', { name: 'Draw an area' }).press('Enter');
  await ignored.getByRole('button', { name: 'Add a square' }).press('Enter');
  await expect(ignored).toContainText('1 area is left out');
  await expect(page.getByRole('button', { name: /^Area 1, corner/ })).toHaveCount(4);
});

test('without a frame an outline is measured', async ({ page }) => {
  await open(page, '2027-04-12_102.jpg');
  await page.getByRole('button', { name: 'Mark again' }).click();
  await page.getByRole('button', { name: 'Measure the whole photo' }).click();
  await page.getByRole('button', { name: 'Done' }).click();
  await page.getByRole('button', { name: 'Draw an outline' }).click();
  await press(page, [
    [0.3, 0.3],
    [0.7, 0.3],
    [0.5, 0.7],
  ]);
  await page.getByRole('button', { name: 'Close the outline' }).click();
  await expect(panel(page, 'Measured area')).toContainText('Inside an outline drawn by hand');
  await settledCover(page);
  // a triangle of 0.4 x 0.4 of the photo
  await expect.poll(() => paintedShare(page)).toBeLessThan(0.1);
  expect(await paintedShare(page)).toBeGreaterThan(0.05);
});

test('two dates of a place: straightened, flipped, and compared by patches', async ({ page }) => {
  await addPhotos(page, ['2027-04-12_101.jpg', '2027-05-17_101.jpg']);
  await openCover(page, '2027-05-17_101.jpg');
  await settledCover(page);
  await page.keyboard.press('r');
  await expect(page.getByRole('img', { name: /as seen from straight above/ })).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);
  await page.keyboard.press('d');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Plot 101 over the dates');
  await expect(page.getByText('not by pixels')).toBeVisible();
  await expect(page.getByRole('row', { name: /^R? ?Ryegrass \d+ \d+ [+−]\d/ })).toBeVisible();
  await expect(page.getByRole('img', { name: /as seen from straight above/ })).toHaveCount(2);
  expect(await axeFindings(page)).toEqual([]);
  await page.getByRole('radio', { name: 'One over the other' }).check();
  await expect(page.getByText('Shown: 12 April 2027')).toBeVisible();
  await page.getByRole('button', { name: 'Flip' }).click();
  await expect(page.getByText('Shown: 17 May 2027')).toBeVisible();
  expect(await axeFindings(page)).toEqual([]);
  await page.getByRole('button', { name: 'Back to the photo' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Plot 101');
});

test('on a phone: photos that need a look are picked out and their frames confirmed together', async ({
  profile,
}) => {
  const page = await profile.open({
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
  });
  await addPhotos(page, [WITH_CARD, DOUBTFUL, await sampleAs('2027-04-12_102.jpg', 'b.jpg')]);
  await expect(page.getByText('Needs a look (3)')).toBeVisible();
  await page.getByRole('radio', { name: 'Needs a look (3)' }).check();
  await expect(page.getByText('Frame to confirm')).toHaveCount(2);
  await expect(page.getByText('Frame doubtful')).toHaveCount(1);
  expect(await axeFindings(page)).toEqual([]);
  for (const name of [WITH_CARD, 'b.jpg']) await page.getByLabel(`Select ${name}`).check();
  await page.getByRole('button', { name: 'Confirm frames' }).click();
  await expect(page.getByText('Needs a look (1)')).toBeVisible();
  await page.getByRole('link', { name: `Show the cover of ${DOUBTFUL}` }).click();
  const take = page.getByRole('button', { name: 'Use this frame' });
  await expect(take).toBeInViewport();
  expect((await take.boundingBox())!.height).toBeGreaterThanOrEqual(44);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
});
