import type { Page } from '@playwright/test';
import { madeUpRecords, putRecords } from '../support/madeUpTrial.ts';
import { addPhotos, expect, measured, openCover, type Profile, test, textFile } from './app.ts';
import { axeFindings } from './axe.ts';
import { overflowing, sign, walk } from './walk.ts';

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
    const clean = async (state: string) => expect.soft(await axeFindings(page), state).toEqual([]);
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

/** A trial with photos, figures and a declared analysis, so that every screen has something to show. */
async function withTrial(profile: Profile, options: Parameters<Profile['open']>[0]): Promise<Page> {
  const page = await profile.open(options);
  await addPhotos(page, ['2027-05-17_101.jpg']);
  await measured(page, 1);
  const records = madeUpRecords({
    treatments: 4,
    blocks: 4,
    dates: 3,
    cover: ({ treatment, block, random }) => 10 * treatment + 3 * block + 4 * random(),
  });
  // a date is signed off over figures of different photos
  const figures = records.figures!.map((figure, index) => ({
    ...figure,
    photoSha256: index.toString(16).padStart(64, '0'),
  }));
  await putRecords(page, { ...records, figures });
  await sign(page, 'K');
  await page.reload();
  return page;
}

const PHONE = { viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true } as const;

/** What cannot be hit: smaller than this in both directions, and no word in a sentence (WCAG 2.2, 2.5.8). */
const tooSmall = (page: Page, leastPx: number) =>
  page.evaluate((least) => {
    const inSentence = (element: Element) =>
      element.tagName === 'A' && ['P', 'LI', 'TD', 'DD', 'CAPTION'].includes(element.parentElement!.tagName);
    return [
      ...document.querySelectorAll('button, a[href], select, input:not([type=file]), textarea, summary'),
    ]
      .map((element) => ({ element, box: (element.closest('label') ?? element).getBoundingClientRect() }))
      .filter(({ element, box }) => box.width > 1 && box.height > 1 && !inSentence(element))
      .filter(({ box }) => box.height < least - 0.5 || box.width < Math.min(least, 24) - 0.5)
      .map(
        ({ element, box }) =>
          `${element.tagName.toLowerCase()} ${Math.round(box.width)}x${Math.round(box.height)}: ${(element.getAttribute('aria-label') ?? element.textContent ?? '').trim().slice(0, 40)}`,
      );
  }, leastPx);

/** Buttons, links and heads whose words do not fit into them. */
const cutWords = (page: Page) =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('button, a[href], th, label, h1, h2, h3, legend, option')]
      .filter((element) => {
        const { overflowX, textOverflow, clipPath } = getComputedStyle(element);
        return (
          clipPath === 'none' &&
          overflowX === 'hidden' &&
          textOverflow !== 'ellipsis' &&
          element.clientWidth > 1 &&
          element.scrollWidth > element.clientWidth + 1
        );
      })
      .map((element) => `${element.tagName.toLowerCase()}: ${(element.textContent ?? '').slice(0, 40)}`),
  );

for (const [name, options] of [
  ['desk, dark', { colorScheme: 'dark' }],
  ['phone, light', { ...PHONE, colorScheme: 'light' }],
] as const) {
  test(`every screen that a link leads to: axe, sizes of what is pressed: ${name}`, async ({ profile }) => {
    test.setTimeout(180_000);
    const page = await withTrial(profile, options);
    const isPhone = 'isMobile' in options;
    const visited = await walk(page, async (path) => {
      expect.soft(await axeFindings(page), path).toEqual([]);
      expect.soft(await tooSmall(page, isPhone ? 44 : 24), `${path}: too small to hit`).toEqual([]);
      if (isPhone) expect.soft(await overflowing(page), `${path}: sticks out`).toEqual([]);
    });
    console.log(`${name}: ${visited.length} screens and parts`);
    expect(visited.length).toBeGreaterThan(30);
  });
}

test('text of twice the size, on every screen: nothing is cut off and nothing sticks out', async ({
  profile,
}) => {
  test.setTimeout(180_000);
  const page = await withTrial(profile, { viewport: { width: 1280, height: 900 } });
  await page.addInitScript(() => {
    addEventListener('DOMContentLoaded', () => {
      document.documentElement.style.fontSize = '200%';
    });
  });
  await page.reload();
  const size = () => page.evaluate(() => getComputedStyle(document.querySelector('main h1')!).fontSize);
  await expect(page.getByRole('main').getByRole('heading', { level: 1 })).toBeVisible();
  expect(Number.parseFloat(await size())).toBeGreaterThanOrEqual(32);
  await walk(page, async (path) => {
    expect.soft(await overflowing(page), `${path}: sticks out`).toEqual([]);
    expect.soft(await cutWords(page), `${path}: cut off`).toEqual([]);
  });
});

test('with colours of the person\u2019s own and without motion the screens can be used', async ({
  profile,
}) => {
  const page = await withTrial(profile, { forcedColors: 'active', reducedMotion: 'reduce' });
  await walk(page, async (path) => {
    await page.keyboard.press('Tab');
    const ring = await page.evaluate(() => {
      const { outlineStyle, outlineWidth } = getComputedStyle(document.activeElement!);
      const focused = document.activeElement!;
      const isSeen = outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2;
      return isSeen || focused === document.body ? null : focused.outerHTML.slice(0, 200);
    });
    expect.soft(ring, `${path}: the focus is seen`).toBeNull();
    const moving = await page.evaluate(() =>
      document
        .getAnimations()
        .filter((one) => one.playState === 'running' && Number(one.effect?.getTiming().duration) > 1)
        .map((one) => String((one.effect as KeyframeEffect).target?.className)),
    );
    expect.soft(moving, `${path}: nothing moves`).toEqual([]);
  });
});
