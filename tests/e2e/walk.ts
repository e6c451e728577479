import type { Page } from '@playwright/test';
import { expect } from './app.ts';

/** Photos are many and alike: of each kind of page about one photo, so many are looked at. */
const PHOTOS_EACH = 1;

/** Kinds of pages: the id of a photo and a date are no part of one. */
const kindOf = (path: string) =>
  path.replace(/^#\/cover\/[^/]+/, '#/cover/ID').replace(/\d{4}-\d{2}-\d{2}/g, 'DAY');

/** Says who plans, counts and rates, as each screen asks for once. */
export async function sign(page: Page, name: string): Promise<void> {
  await page.evaluate((who) => localStorage.setItem('swardbook.plan.signature', JSON.stringify(who)), name);
}

/** How long a screen must not change to count as settled, and how long that is waited for. */
const QUIET_MS = 150;
const QUIET_AFTER_AT_MOST_MS = 5000;

/** Goes to an address of the page and waits until what it shows has settled. */
export async function visit(page: Page, path: string): Promise<void> {
  await page.evaluate(
    async ({ hash, quietMs, atMostMs }) => {
      let changedAt = performance.now();
      const began = changedAt;
      const observer = new MutationObserver(() => {
        changedAt = performance.now();
      });
      observer.observe(document.body, { childList: true, subtree: true, characterData: true });
      location.hash = hash;
      while (performance.now() - changedAt < quietMs && performance.now() - began < atMostMs) {
        await new Promise((resolve) => setTimeout(resolve, 30));
      }
      observer.disconnect();
    },
    { hash: path, quietMs: QUIET_MS, atMostMs: QUIET_AFTER_AT_MOST_MS },
  );
  const main = page.getByRole('main');
  await expect(main.getByRole('heading').first(), path).toBeVisible();
  // what is fetched or computed for a screen says so
  await expect(main.getByText(/^(Opening|Loading|Reading|Working)\b.*…$/), path).toHaveCount(0);
}

/**
 * Follows every link from screen to screen, one photo and one date of each kind of page.
 *
 * @param look called on each
 * @returns addresses in the order they were visited
 */
export async function walk(page: Page, look: (path: string) => Promise<void>): Promise<string[]> {
  const seen = new Map<string, number>();
  const visited: string[] = [];
  const waiting = ['#/'];
  const note = (paths: readonly string[]) => {
    for (const path of paths) {
      const kind = kindOf(path);
      const times = seen.get(kind) ?? 0;
      if (times >= PHOTOS_EACH) continue;
      seen.set(kind, times + 1);
      waiting.push(path);
    }
  };
  for (let path = waiting.shift(); path !== undefined; path = waiting.shift()) {
    await visit(page, path);
    visited.push(path);
    await look(path);
    note(
      await page
        .locator('a[href^="#/"]')
        .evaluateAll((links) => links.map((link) => link.getAttribute('href')!)),
    );
  }
  return visited;
}

/** What sticks out to the right of the page, in words; empty where all fits. */
export function overflowing(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const width = document.documentElement.clientWidth;
    if (document.documentElement.scrollWidth <= width) return [];
    const isCut = (element: Element | null): boolean =>
      element !== null &&
      element !== document.documentElement &&
      (getComputedStyle(element).overflowX !== 'visible' || isCut(element.parentElement));
    // a fixed element only follows the page that something else has widened
    const isFixed = (element: Element) => element.closest('nav') !== null;
    const sticksOut = (element: Element) => {
      const { left, right } = element.getBoundingClientRect();
      return right > width + 1 || left + element.scrollWidth > width + 1;
    };
    return [...document.querySelectorAll('body *')]
      .filter((element) => sticksOut(element) && !isCut(element) && !isFixed(element))
      .filter((element) => ![...element.children].some(sticksOut))
      .slice(0, 5)
      .map(
        (element) =>
          `${element.tagName.toLowerCase()}.${element.className} in ${element.parentElement!.className}: ${(element.textContent ?? '').slice(0, 40)}`,
      )
      .concat(`the page is ${document.documentElement.scrollWidth} wide, the screen ${width}`);
  });
}
