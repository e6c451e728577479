import { type MadeUpTrial, madeUpRecords, putRecords } from '../support/madeUpTrial.ts';
import { longestMainThreadTaskMs } from './mainThread.ts';
import { median } from './median.ts';
import { openApp } from './openApp.ts';

/** How long the Compare screen of a large trial takes to open. */
export interface CompareScreenSpeed {
  readonly plots: number;
  readonly dates: number;
  /** From the press on "Compare" to the finding with the table of its date, one entry a run. */
  readonly findingMs: readonly number[];
  readonly longestTaskMs: number;
}

const LARGE: MadeUpTrial = {
  treatments: 50,
  blocks: 20,
  dates: 12,
  cover: ({ treatment, block, date, random }) =>
    Math.min(100, Math.max(0, 40 - (treatment % 10) * 3 + block / 2 + date + 8 * random())),
};
const RUNS = 5;

/** Opens the screen of 1,000 plots with 12 dates in the built page, several times, each in a page opened anew. */
export async function measureCompareScreen(): Promise<CompareScreenSpeed> {
  const app = await openApp(2);
  const { page } = app;
  try {
    await page.getByRole('button', { name: 'Open photos' }).first().waitFor();
    await putRecords(page, madeUpRecords(LARGE));
    const findingMs: number[] = [];
    const open = async () => {
      await page.goto('about:blank');
      await page.goBack();
      await page.getByRole('link', { name: 'Plan', exact: true }).click();
      await page.locator('main h1').waitFor({ timeout: 120_000 });
      // the screens are fetched when the page has nothing better to do
      await page.waitForTimeout(3000);
      const finding = await page.evaluate(async () => {
        const seen = (selector: string) =>
          new Promise<number>((found) => {
            const look = () => {
              if (document.querySelector(selector)) requestAnimationFrame(() => found(performance.now()));
              else requestAnimationFrame(look);
            };
            look();
          });
        const started = performance.now();
        const link = [...document.querySelectorAll<HTMLAnchorElement>('nav a')].find(
          ({ textContent }) => textContent === 'Compare',
        )!;
        link.click();
        const finding = await seen('section[aria-label="Finding"] li');
        return finding - started;
      });
      findingMs.push(finding);
    };
    for (let run = 0; run < RUNS; run += 1) await open();
    const longestTaskMs = await longestMainThreadTaskMs(app, open);
    return { plots: 1000, dates: LARGE.dates, findingMs, longestTaskMs };
  } finally {
    await app.close();
  }
}

export function compareScreenTable({ plots, dates, findingMs, longestTaskMs }: CompareScreenSpeed): string {
  return (
    `Compare screen, ${plots} plots x ${dates} dates: finding after ${median(findingMs).toFixed(0)} ms ` +
    `(${Math.min(...findingMs).toFixed(0)} to ${Math.max(...findingMs).toFixed(0)} over ${findingMs.length} runs); ` +
    `longest task of the main thread ${longestTaskMs.toFixed(0)} ms`
  );
}
