import { addPhotos, expect, measured, openCover, sampleAs, test, textFile } from './app.ts';

const GOOD = ['2027-05-17_101.jpg', '2027-05-17_102.jpg', '2027-06-21_101.jpg'];

test('broken files are named with the way out, and the rest is done', async ({ page }) => {
  const whole = await sampleAs('2027-05-17_103.jpg', 'cut short.jpg');
  await addPhotos(page, [
    ...GOOD,
    textFile('notes.jpg', 'plot 101: windy'),
    textFile('nothing.jpg', ''),
    { ...whole, buffer: whole.buffer.subarray(0, 90_000) },
    await sampleAs('2027-05-17_101.jpg', 'copy of 101.jpg'),
  ]);
  await measured(page, GOOD.length);
  const main = page.getByRole('main');
  await expect(main).toContainText('nothing.jpg The file is empty (0 bytes). Copy it from the camera again.');
  await expect(main).toContainText(/notes\.jpg\s*This is no picture/);
  await expect(main).toContainText(/cut short\.jpg\s*The file ends before the picture does/);
  await expect(main).toContainText('copy of 101.jpg is the same photo as 2027-05-17_101.jpg');
});

test('64 sample photos are measured, grouped, shown as a table and turned like pages', async ({ page }) => {
  test.setTimeout(150_000);
  await page.getByRole('button', { name: 'Use the sample photos' }).click();
  await expect(page.getByRole('progressbar', { name: 'Measuring photos' })).toBeVisible();
  await measured(page, 64);
  await expect(page.getByRole('progressbar')).toHaveCount(0);
  await expect(page.getByRole('heading', { level: 2 })).toHaveText([
    '12 April 2027',
    '17 May 2027',
    '21 June 2027',
    '26 July 2027',
  ]);
  await page.getByRole('radio', { name: 'By plot' }).check();
  await expect(page.getByRole('heading', { level: 2 })).toHaveCount(16);
  await page.getByRole('radio', { name: 'By date' }).check();

  await page.getByRole('radio', { name: 'Table' }).check();
  await expect(page.getByRole('row')).toHaveCount(65);
  await page.getByRole('radio', { name: 'Pictures' }).check();

  await openCover(page, '2027-07-26_102.jpg');
  await expect(page.getByText('50 of 64', { exact: true })).toBeVisible();
  await expect(page.getByText('Inside the inner edge of the frame.')).toBeVisible();
  await page.getByRole('button', { name: 'Next photo' }).click();
  await expect(page.getByRole('heading', { name: 'Plot 103' })).toBeVisible();
  await page.keyboard.press('p');
  await expect(page.getByRole('heading', { name: 'Plot 102' })).toBeVisible();
});

test('measuring is paused, goes on, and is cancelled; what was measured stays', async ({ page }) => {
  await page.getByRole('button', { name: 'Use the sample photos' }).click();
  const strip = page.getByRole('region', { name: 'Measuring photos' });
  await expect(strip.getByText(/^Measured [1-9]\d* of/)).toBeVisible({ timeout: 30_000 });
  await strip.getByRole('button', { name: 'Pause' }).click();
  await expect(strip.getByText(/^Paused at/)).toBeVisible();
  await strip.getByRole('button', { name: 'Go on' }).click();
  await expect(strip.getByText(/^Measured/)).toBeVisible();
  await strip.getByRole('button', { name: 'Cancel' }).click();
  await expect(strip).toHaveCount(0);
  // also those that were still being added when it was cancelled
  await expect(page.getByText('64 photos added.')).toBeAttached({ timeout: 30_000 });
  const bars = page.getByRole('main').getByRole('img', { name: /^Cover:/ });
  const kept = await bars.count();
  expect(kept).toBeGreaterThan(0);
  expect(kept).toBeLessThan(64);
  await expect(page.getByText(`${64 - kept} photos have not been measured`)).toBeVisible();
  await page.getByRole('button', { name: 'Measure them' }).click();
  await expect(bars).not.toHaveCount(kept);
});

test('photos are selected, named together and removed', async ({ page }) => {
  await addPhotos(page, GOOD);
  await measured(page, 3);
  await page.getByRole('checkbox', { name: 'Select all of 17 May 2027' }).check();
  await expect(page.getByRole('toolbar', { name: '2 selected' })).toBeVisible();
  await page.keyboard.press('e');
  const dialog = page.getByRole('dialog', { name: 'Plot and date of 2 photos' });
  await dialog.getByLabel('Rating date').fill('2027-06-21');
  await dialog.getByRole('button', { name: 'Save' }).click();
  await expect(page.getByRole('heading', { level: 2 })).toHaveText(['21 June 2027']);
  await expect(page.getByText('Plot 102')).toBeVisible();

  await page.keyboard.press('Delete');
  const question = page.getByRole('dialog', { name: 'Remove 2 photos?' });
  await question.getByRole('button', { name: 'Keep' }).click();
  await expect(page.getByRole('link', { name: /^Show the cover/ })).toHaveCount(3);
  await page.keyboard.press('Delete');
  await question.getByRole('button', { name: 'Remove' }).click();
  await expect(page.getByRole('link', { name: /^Show the cover/ })).toHaveCount(1);
});

test('photos are dropped on the page', async ({ page }) => {
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  const { name, buffer } = await sampleAs(GOOD[0]!, GOOD[0]!);
  await page.evaluate(
    ({ name, base64 }) => {
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      const carried = new DataTransfer();
      carried.items.add(new File([bytes], name, { type: 'image/jpeg' }));
      const options = { dataTransfer: carried, bubbles: true, cancelable: true };
      document.body.dispatchEvent(new DragEvent('dragover', options));
      document.body.dispatchEvent(new DragEvent('drop', options));
    },
    { name, base64: buffer.toString('base64') },
  );
  await measured(page, 1);
});
