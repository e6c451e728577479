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

// the frame of this photo by sample-images/photos.json, rounded
const PHOTO = '2027-05-17_101.jpg';

test.beforeEach(async ({ page }) => {
  const file = await sampleAs(PHOTO, PHOTO);
  await addPhotos(page, [file]);
  await openCover(page, PHOTO);
  // the program finds the frame; these tests begin with the whole photo
  await expect(page.getByText('Found by the program, not yet confirmed.')).toBeVisible();
  await page.getByRole('button', { name: 'Mark again' }).click();
  await page.getByRole('button', { name: 'Measure the whole photo' }).click();
  await page.getByRole('button', { name: 'Done' }).click();
  await expect(page.getByText('The whole photo, by choice: edges and all.')).toBeVisible();
  await settledCover(page);
});

const corner = (page: import('@playwright/test').Page, name: string) =>
  page.getByRole('button', { name: new RegExp(`^${name} corner`) });

async function drag(page: import('@playwright/test').Page, name: string, dx: number, dy: number) {
  const box = (await corner(page, name).boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + dx, y + dy, { steps: 5 });
  await page.mouse.up();
}

test('corners are dragged, the cover changes, and the area is found again', async ({ page }) => {
  const before = await coverWords(page);
  await page.getByRole('button', { name: 'Mark the measured area' }).first().click();
  await drag(page, 'Top left', 200, 70);
  await drag(page, 'Bottom right', -200, -70);
  await expect.poll(() => coverWords(page)).not.toBe(before);
  const after = await settledCover(page);
  await page.getByRole('button', { name: 'Done' }).click();
  await expect.poll(() => paintedShare(page)).toBeLessThan(0.75);
  await page.reload();
  await expect(page.getByText('Inside the inner edge of the frame. Marked by hand.')).toBeVisible();
  await expect.poll(() => coverWords(page)).toBe(after);

  // and taken back
  await page.getByRole('button', { name: 'Mark again' }).click();
  await page.getByRole('button', { name: 'Measure the whole photo' }).click();
  await expect.poll(() => coverWords(page)).toBe(before);
});

test('crossed and outside corners are named and not measured', async ({ page }) => {
  const before = await coverWords(page);
  await page.getByRole('button', { name: 'Mark the measured area' }).first().click();
  const across = page.getByLabel('Top left, across (px)');
  await across.fill('400,5');
  await across.press('Enter');
  await expect(corner(page, 'Top left')).toHaveAccessibleName('Top left corner, across 400.5, down 0');
  await expect(page.getByText('Inside the inner edge of the frame.')).toBeVisible();
  await expect.poll(() => coverWords(page)).not.toBe(before);
  const good = await settledCover(page);

  await across.fill('-30');
  await across.press('Enter');
  await expect(page.getByRole('alert')).toContainText('outside the photo');
  await expect(page.getByRole('alert')).toContainText('The area stays as it was');

  await across.fill('1000');
  await across.press('Enter');
  await expect(page.getByRole('alert')).toContainText('cross');

  await across.fill('wide');
  await across.press('Enter');
  await expect(page.getByText('"wide" is not a number. Write it like 221.7.')).toBeVisible();
  await across.press('Escape');
  expect(await coverWords(page)).toBe(good);

  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.getByRole('alert')).toHaveCount(0);
  await expect(across).toHaveValue('400.5');
  expect(await coverWords(page)).toBe(good);
});

test('arrow keys move a corner by one pixel, with Shift by ten, and each step can be undone', async ({
  page,
}) => {
  await page.getByRole('button', { name: 'Mark the measured area' }).first().click();
  const handle = corner(page, 'Bottom left');
  await handle.focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Shift+ArrowUp');
  await expect(handle).toHaveAccessibleName('Bottom left corner, across 1, down 740');
  await expect(handle).toBeFocused();
  await page.keyboard.press('Control+z');
  await expect(handle).toHaveAccessibleName('Bottom left corner, across 1, down 750');
});

test('the frame size is typed in both directions or in none', async ({ page }) => {
  await page.getByRole('button', { name: 'Mark the measured area' }).first().click();
  await corner(page, 'Top left').focus();
  await page.keyboard.press('Shift+ArrowRight');
  const width = page.getByLabel('Width', { exact: true });
  await width.fill('500');
  await width.press('Enter');
  await expect(page.getByText('Enter width and height, or leave both empty.')).toBeVisible();
  await page.getByLabel('Height', { exact: true }).fill('500');
  await page.getByLabel('Height', { exact: true }).press('Enter');
  await page.getByText('Where this figure comes from').click();
  await expect(page.getByText(/^0\.\d+ mm to a pixel$/)).toBeVisible();
});
