import { gzipSync } from 'node:zlib';
import { expect, test } from './app.ts';

/** What a phone in the field may be asked to fetch before the start screen can be used. */
const BUDGET_BYTES = 250_000;

test('the start screen is there after a small first load', async ({ profile }) => {
  const page = await profile.open({}, 'about:blank');
  const answers: Promise<readonly [path: string, bytes: number] | null>[] = [];
  page.on('response', (response) => {
    const { pathname } = new URL(response.url());
    answers.push(
      response.body().then(
        // pictures are compressed already
        (body) => [pathname, /\.(avif|jpg)$/.test(pathname) ? body.length : gzipSync(body).length] as const,
        // still under way when the screen could be used, so not needed for it
        () => null,
      ),
    );
  });
  await page.goto('/');
  await expect(page.getByRole('button', { name: 'Open photos' })).toBeEnabled();
  const needed = new Map((await Promise.all(answers)).filter((answer) => answer !== null));
  const bytes = [...needed.values()].reduce((sum, one) => sum + one, 0);
  console.log(`first load: ${bytes} bytes compressed`, needed);
  expect([...needed.keys()].some((path) => path.endsWith('.js'))).toBe(true);
  expect(bytes).toBeLessThanOrEqual(BUDGET_BYTES);
});
