import type { Page } from '@playwright/test';
import { expect, test } from './app.ts';
import { axeFindings } from './axe.ts';
import { choose, cover, openCorrecting, placesOn, ready, stageOf, storedGestures } from './correcting.ts';

const PHOTO = '2027-05-17_101.jpg';

/** Drags over shares of the photo's sides. */
async function drag(page: Page, points: readonly (readonly [number, number])[]): Promise<void> {
  const place = await placesOn(page);
  const [first, ...rest] = points.map(([x, y]) => place(x, y));
  await page.mouse.move(...(first as [number, number]));
  await page.mouse.down();
  for (const point of rest) await page.mouse.move(...(point as [number, number]), { steps: 4 });
  await page.mouse.up();
}

const press = async (page: Page, x: number, y: number) => {
  const place = await placesOn(page);
  await page.mouse.click(...(place(x, y) as [number, number]));
};

const square = (x: number, y: number, side: number) =>
  [
    [x, y],
    [x + side, y],
    [x + side, y + side],
    [x, y + side],
    [x, y + 0.01],
  ] as const;

test('by pointer: every tool, undo over a reload, both covers side by side', async ({ profile, page }) => {
  await openCorrecting(page, PHOTO);
  const computed = await cover(page);
  expect(await axeFindings(page)).toEqual([]);

  await choose(page, 'Bare ground');
  await drag(page, [
    [0.4, 0.4],
    [0.5, 0.45],
  ]);
  await storedGestures(page, 1);
  const brushed = await cover(page);
  expect(brushed).not.toBe(computed);

  // an outline drawn, and one of corners that ends on its first
  await page.getByRole('button', { name: 'Outline', exact: true }).click();
  await choose(page, 'Weedy grass');
  await drag(page, square(0.3, 0.5, 0.1));
  await storedGestures(page, 2);
  await choose(page, 'Ryegrass');
  await page.getByLabel('Only over').selectOption({ label: 'Bare ground' });
  for (const [x, y] of [
    [0.38, 0.38],
    [0.55, 0.38],
    [0.55, 0.5],
    [0.38, 0.38],
  ] as const) {
    await press(page, x, y);
  }
  await storedGestures(page, 3);

  // smoothing
  await page.getByLabel('Only over').selectOption({ label: 'any class' });
  await page.getByRole('radio', { name: 'Smooth' }).check();
  await drag(page, square(0.25, 0.2, 0.3));
  await storedGestures(page, 4);
  await page.getByRole('radio', { name: 'Paint', exact: true }).check();

  // a patch: the square painted before becomes bare ground
  await page.getByRole('button', { name: 'Patch', exact: true }).click();
  await choose(page, 'Bare ground');
  await press(page, 0.35, 0.55);
  await storedGestures(page, 5);

  // like colours, with a preview that follows the tolerance
  await page.getByRole('button', { name: 'Like colours' }).click();
  await press(page, 0.6, 0.6);
  const shown = page.getByText(/^[\d,]+ pixels$/);
  await expect(shown).toBeVisible();
  const before = await shown.textContent();
  await page.getByRole('textbox', { name: 'Tolerance' }).fill('30');
  await page.getByRole('textbox', { name: 'Tolerance' }).press('Enter');
  await expect(shown).not.toHaveText(before!);
  expect(await axeFindings(page)).toEqual([]);
  await page.getByRole('button', { name: 'Apply' }).click();
  await storedGestures(page, 6);

  // one class everywhere
  await page.getByLabel('Only over').selectOption({ label: 'Weedy grass' });
  await page.getByRole('button', { name: 'Change all Weedy grass to Bare ground' }).click();
  await storedGestures(page, 7);
  expect(await cover(page)).toMatch(/Weedy grass 0 %/);
  await page.getByLabel('Corrected by').fill('K');
  await page.getByLabel('Why (optional)').fill('frost');
  await page.getByRole('button', { name: 'Keep the reason' }).click();
  await expect(page.getByText(/no name · .* · frost/).first()).toBeVisible();
  const last = await cover(page);

  // stored, with its figure, beyond the end of the browser
  await page.waitForTimeout(1500);
  await profile.close();
  const later = await profile.open();
  await later.getByRole('link', { name: `Show the cover of ${PHOTO}` }).click();
  await later.getByRole('button', { name: 'Correct by hand' }).click();
  await ready(later);
  expect(await cover(later)).toBe(last);
  for (let left = 6; left >= 0; left -= 1) {
    await later.keyboard.press('Control+z');
    await storedGestures(later, left);
    if (left === 1) expect(await cover(later)).toBe(brushed);
  }
  expect(await cover(later)).toBe(computed);
  await later.keyboard.press('Control+Shift+z');
  await storedGestures(later, 1);
  expect(await cover(later)).toBe(brushed);
});

test('by keyboard alone', async ({ page }) => {
  await openCorrecting(page, PHOTO);
  const computed = await cover(page);
  await stageOf(page).focus();
  await page.keyboard.press('3');
  await page.keyboard.press(']');
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('Enter');
  await storedGestures(page, 1);
  await page.keyboard.press('Shift+ArrowUp');
  await page.keyboard.press('Shift+Enter'); // a line from the last place
  await storedGestures(page, 2);
  const brushed = await cover(page);
  expect(brushed).not.toBe(computed);

  await page.keyboard.press('q');
  await page.keyboard.press('2');
  for (const key of ['ArrowLeft', 'ArrowDown', 'ArrowRight'])
    for (const pressed of [`Shift+${key}`, `Shift+${key}`, 'Enter']) await page.keyboard.press(pressed);
  await page.keyboard.press('Enter'); // a second time in the same place closes it
  await storedGestures(page, 3);

  await page.keyboard.press('f');
  await page.keyboard.press('1');
  await page.keyboard.press('Enter');
  await storedGestures(page, 4);

  await page.keyboard.press('k');
  await page.keyboard.press('e'); // takes corrections back
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: 'Apply' })).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(page.getByRole('button', { name: 'Apply' })).toHaveCount(0);

  // ways of looking; the photo alone while a key is held
  await page.keyboard.press('o');
  await expect(page.getByRole('radio', { name: 'Outlines' })).toBeChecked();
  await page.keyboard.press('s');
  await expect(page.getByRole('group', { name: /as computed/ })).toBeVisible();
  await page.keyboard.press('d');
  const bare = page.getByRole('button', { name: 'Bare photo while held' });
  await page.keyboard.down('h');
  await expect(bare).toHaveAttribute('aria-pressed', 'true');
  await page.keyboard.up('h');
  await expect(bare).toHaveAttribute('aria-pressed', 'false');
  expect(await axeFindings(page)).toEqual([]);

  for (let left = 3; left >= 0; left -= 1) {
    await page.keyboard.press('Control+z');
    await storedGestures(page, left);
  }
  expect(await cover(page)).toBe(computed);
  await page.keyboard.press('?');
  for (const words of ['Outline', 'Like colours', 'Bare photo while held', 'Undo the last gesture']) {
    await expect(page.getByRole('dialog').getByText(words, { exact: true })).toBeVisible();
  }
  await page.keyboard.press('Escape');
  await page.keyboard.press('Escape');
  await expect(page.getByRole('heading', { level: 1 })).not.toHaveText('Correct by hand');
});

test('a pen paints as hard as it is pressed', async ({ page }) => {
  await openCorrecting(page, PHOTO);
  await choose(page, 'Bare ground');
  const place = await placesOn(page);
  const pixelsAt = async (pressure: number, y: number): Promise<number> => {
    const [x, top] = place(0.4, y);
    await stageOf(page).evaluate(
      (stage, [clientX, clientY, force]) => {
        const send = (type: string, dx: number) =>
          stage.dispatchEvent(
            new PointerEvent(type, {
              pointerId: 7,
              pointerType: 'pen',
              isPrimary: true,
              bubbles: true,
              button: 0,
              buttons: type === 'pointerup' ? 0 : 1,
              clientX: clientX + dx,
              clientY,
              pressure: type === 'pointerup' ? 0 : force,
            }),
          );
        stage.setPointerCapture = () => {};
        send('pointerdown', 0);
        send('pointermove', 60);
        send('pointerup', 60);
      },
      [x, top, pressure] as const,
    );
    const words = await page
      .getByText(/^Brush, [\d,]+ px$/)
      .first()
      .textContent();
    return Number(words!.replace(/\D/g, ''));
  };
  const light = await pixelsAt(0.1, 0.35);
  await storedGestures(page, 1);
  const hard = await pixelsAt(1, 0.6);
  await storedGestures(page, 2);
  expect(hard).toBeGreaterThan(2 * light);
});

test('two tabs: the second hears of what the first did', async ({ profile, page }) => {
  await openCorrecting(page, PHOTO);
  const tab = await profile.openTab();
  await tab.getByRole('link', { name: `Show the cover of ${PHOTO}` }).click();
  await tab.getByRole('button', { name: 'Correct by hand' }).click();
  await ready(tab);
  await page.bringToFront();
  await choose(page, 'Bare ground');
  await drag(page, [
    [0.4, 0.4],
    [0.5, 0.45],
  ]);
  await storedGestures(page, 1);
  const words = await cover(page);
  await tab.bringToFront();
  await expect(tab.getByText('Another tab changed the corrections of this photo.')).toBeVisible();
  await storedGestures(tab, 1);
  expect(await cover(tab)).toBe(words);
  expect(await axeFindings(tab)).toEqual([]);
});

test('on a phone: one finger paints, two move the photo', async ({ profile }) => {
  const page = await profile.open({
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
    deviceScaleFactor: 2,
  });
  await openCorrecting(page, PHOTO);
  expect(await axeFindings(page)).toEqual([]);
  await page.getByRole('button', { name: 'Bare ground', exact: true }).click();
  const client = await page.context().newCDPSession(page);
  const place = await placesOn(page);
  const touch = (
    type: 'touchStart' | 'touchMove' | 'touchEnd',
    points: readonly (readonly [number, number])[],
  ) =>
    client.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: points.map(([x, y], id) => ({ x, y, id })),
    });
  await touch('touchStart', [place(0.4, 0.4)]);
  await touch('touchMove', [place(0.45, 0.45)]);
  await touch('touchMove', [place(0.5, 0.4)]);
  await touch('touchEnd', []);
  await storedGestures(page, 1);
  const painted = await cover(page);

  // the second finger takes the first one's dab back and moves the photo
  await touch('touchStart', [place(0.4, 0.6)]);
  await touch('touchStart', [place(0.4, 0.6), place(0.6, 0.6)]);
  await touch('touchMove', [place(0.3, 0.6), place(0.7, 0.6)]);
  await touch('touchEnd', []);
  await expect(page.getByTitle('Part of the photo in sight; press to go there')).toBeVisible();
  await storedGestures(page, 1);
  expect(await cover(page)).toBe(painted);
  expect(await axeFindings(page)).toEqual([]);
});
