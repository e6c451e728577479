import type { CDPSession, Page } from '@playwright/test';
import { addPhotos, coverWords, expect, measured, openCover, test } from './app.ts';

const PHONE = { viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, isMobile: true, hasTouch: true };
const PHOTO = '2027-05-17_101.jpg';

type Finger = readonly [x: number, y: number];

/** Moves fingers over the screen in steps, as a person's do. */
async function gesture(cdp: CDPSession, from: readonly Finger[], to: readonly Finger[]) {
  const at = (share: number) =>
    from.map(([x, y], id) => ({ id, x: x + (to[id]![0] - x) * share, y: y + (to[id]![1] - y) * share }));
  await cdp.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: at(0) });
  for (const share of [0.25, 0.5, 0.75, 1]) {
    await cdp.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: at(share) });
  }
  await cdp.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
}

async function noSidewaysScroll(page: Page) {
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
}

test('on a phone the photo fills the width, two fingers zoom it, one moves a corner', async ({ profile }) => {
  const page = await profile.open(PHONE);
  await expect(page.getByRole('button', { name: 'Take a photo' })).toBeVisible();
  const camera = page.getByLabel('Take a photo').and(page.locator('input[type=file]'));
  await expect(camera).toHaveAttribute('capture', 'environment');
  await noSidewaysScroll(page);

  await addPhotos(page, [PHOTO]);
  await measured(page, 1);
  await noSidewaysScroll(page);
  await openCover(page, PHOTO);
  await noSidewaysScroll(page);
  const stage = page.getByRole('group', { name: /^Photo 2027/ });
  const box = (await stage.boundingBox())!;
  expect(box.width).toBe(390);
  const before = await coverWords(page);

  const cdp = await page.context().newCDPSession(page);
  const whole = page.getByRole('button', { name: 'Show the whole photo' });
  await expect(whole).toBeDisabled();
  const y = box.y + box.height / 2;
  await gesture(
    cdp,
    [
      [180, y],
      [210, y],
    ],
    [
      [100, y],
      [290, y],
    ],
  );
  await expect(whole).toBeEnabled();
  await whole.tap();
  await expect(whole).toBeDisabled();

  await page.getByRole('button', { name: 'Mark the measured area' }).first().tap();
  const corner = page.getByRole('button', { name: /^Top left corner/ });
  const named = await corner.getAttribute('aria-label');
  const grip = (await corner.boundingBox())!;
  expect(Math.min(grip.width, grip.height)).toBeGreaterThanOrEqual(44);
  const [x0, y0] = [grip.x + grip.width / 2, grip.y + grip.height / 2];
  await gesture(cdp, [[x0, y0]], [[x0 + 80, y0 + 50]]);
  await expect(corner).not.toHaveAccessibleName(named!);
  await expect.poll(() => coverWords(page)).not.toBe(before);
});

test('everything to press on a phone is at least 44 px high and wide', async ({ profile }) => {
  const page = await profile.open(PHONE);
  await addPhotos(page, [PHOTO]);
  await measured(page, 1);
  const tooSmall = async () =>
    page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('button, a, label:has(input), summary')]
        .filter((element) => element.checkVisibility() && element.getClientRects().length > 0)
        .filter((element) => !element.matches('p a, li a'))
        .map((element) => ({ element, box: element.getBoundingClientRect() }))
        .filter(({ box }) => box.width > 1 && (box.width < 44 || box.height < 44))
        .map(
          ({ element, box }) => `${element.textContent || element.ariaLabel}: ${box.width} x ${box.height}`,
        ),
    );
  expect(await tooSmall()).toEqual([]);
  await openCover(page, PHOTO);
  expect(await tooSmall()).toEqual([]);
});
