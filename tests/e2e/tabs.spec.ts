import { addPhotos, expect, measured, test } from './app.ts';

test('two tabs notice each other and show the same photos', async ({ profile, page }) => {
  await addPhotos(page, ['2027-05-17_101.jpg']);
  await measured(page, 1);
  const second = await profile.openTab();
  await measured(second, 1);
  const notice = 'Swardbook is open in another tab as well.';
  await expect(page.getByText(notice)).toBeVisible();
  await expect(second.getByText(notice)).toBeVisible();
  await addPhotos(second, ['2027-05-17_102.jpg']);
  await measured(page, 2);
  await second.close();
  await expect(page.getByText(notice)).toHaveCount(0);
});
