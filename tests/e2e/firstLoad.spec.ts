import { gzipSync } from 'node:zlib';
import { expect, test } from './app.ts';

/** What a phone in the field may be asked to fetch before the start screen can be used. */
const BUDGET_BYTES = 150_000;

test('the start screen is there after a small first load', async ({ profile }) => {
  const page = await profile.open({}, 'about:blank');
  await page.addInitScript(() => {
    new MutationObserver((_changes, observer) => {
      const main = document.querySelector('main button:not([disabled])');
      if (!main) return;
      performance.mark('start screen usable');
      observer.disconnect();
    }).observe(document, { childList: true, subtree: true, attributes: true });
  });
  const bodies = new Map<string, Promise<Buffer | Error>>();
  page.on('response', (response) => {
    // what comes after the screen may still be under way when the page is closed
    bodies.set(
      response.url(),
      response.body().catch((error: Error) => error),
    );
  });
  await page.goto('/');
  await expect(page.getByRole('button', { name: 'Open photos' })).toBeEnabled();
  const { usableMs, began } = await page.evaluate(() => {
    const [mark] = performance.getEntriesByName('start screen usable');
    const entries = [
      ...performance.getEntriesByType('navigation'),
      ...performance.getEntriesByType('resource'),
    ] as PerformanceResourceTiming[];
    const usableMs = mark!.startTime;
    return {
      usableMs,
      began: entries.filter(({ startTime }) => startTime <= usableMs).map(({ name }) => name),
    };
  });
  const needed = new Map<string, number>();
  for (const url of began) {
    const body = await bodies.get(url)!;
    if (body instanceof Error) throw body;
    // pictures are compressed already
    needed.set(new URL(url).pathname, /\.(avif|jpg)$/.test(url) ? body.length : gzipSync(body).length);
  }
  const bytes = [...needed.values()].reduce((sum, one) => sum + one, 0);
  console.log(`first load: ${bytes} bytes compressed, usable after ${Math.round(usableMs)} ms`, needed);
  expect([...needed.keys()].some((path) => path.endsWith('.js'))).toBe(true);
  expect(bytes).toBeLessThanOrEqual(BUDGET_BYTES);
});

test('what waits for the database is told so, and comes when it is open', async ({ page }) => {
  await page.goto('#/plan');
  await expect(page.getByRole('main').getByRole('heading').first()).toBeVisible();
});
