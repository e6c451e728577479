import { gzipSync } from 'node:zlib';
import { expect, test } from './app.ts';

/** What a phone in the field may be asked to fetch before the start screen can be used. */
const BUDGET_BYTES = 250_000;

test('the start screen is there after a small first load', async ({ profile }) => {
  const blank = await profile.open({}, 'about:blank');
  const answers: Promise<{ path: string; bytes: number }>[] = [];
  blank.on('response', (response) => {
    answers.push(
      response.body().then((body) => {
        const path = new URL(response.url()).pathname;
        // pictures are compressed already
        return { path, bytes: /\.(avif|jpg)$/.test(path) ? body.length : gzipSync(body).length };
      }),
    );
  });
  await blank.goto('/');
  await expect(blank.getByRole('button', { name: 'Open photos' })).toBeEnabled();
  const usable = await Promise.all(answers);
  const sum = usable.reduce((total, { bytes }) => total + bytes, 0);
  console.log(`first load: ${sum} bytes compressed`, usable);
  expect(usable.length).toBeGreaterThan(2);
  expect(sum).toBeLessThanOrEqual(BUDGET_BYTES);
});
