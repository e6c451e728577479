import { hostileFiles } from '../support/hostileFiles.ts';
import { addPhotos, expect, sampleAs, test } from './app.ts';

test('hostile files are each measured or named, and a good photo beside them is measured', async ({
  page,
}) => {
  test.setTimeout(180_000);
  const hostile = await hostileFiles();
  const good = '2027-05-17_101.jpg';
  await addPhotos(page, [
    ...hostile.map(({ name, bytes }) => ({ name, mimeType: 'image/jpeg', buffer: Buffer.from(bytes) })),
    await sampleAs(good, good),
  ]);
  const link = page.getByRole('link', { name: `Show the cover of ${good}` });
  await expect(link).toBeVisible({ timeout: 60_000 });
  await expect(page.getByRole('progressbar')).toHaveCount(0, { timeout: 120_000 });
  const main = page.getByRole('main');
  const text = ((await main.textContent()) ?? '').replace(/\s+/g, ' ');
  const measured = await main
    .getByRole('link', { name: /^Show the cover of/ })
    .evaluateAll((links) =>
      links.map((each) =>
        (each.getAttribute('aria-label') ?? each.textContent ?? '').replace('Show the cover of ', ''),
      ),
    );
  const silent = hostile
    .map(({ name }) => name)
    .filter((name) => !text.includes(name) && !measured.some((label) => label.includes(name)));
  console.log(`${hostile.length} hostile files: ${measured.length - 1} kept as photos, the rest named`);
  expect(silent).toEqual([]);
  await link.click();
  await expect(main.getByRole('img', { name: /^Cover:/ })).toBeVisible();
});
