import { writeTrialPlan } from '../../src/core/exchange/trialPlan.ts';
import { samplePlan } from '../core/trial/samplePlan.ts';
import { openApp } from './openApp.ts';

/** The board of plots by dates with a thousand photos on it. */
export interface BoardSpeed {
  readonly photos: number;
  /** From pressing its link to the frame with every photo in its cell: median of several. */
  readonly openMs: number;
  /** The same from loading the page at the board's address. */
  readonly loadMs: number;
}

const PLOTS = 250;
const REPEATS = 5;

/** A plan of 250 plots on four dates. */
function largePlan() {
  const plan = samplePlan();
  const plots = Array.from({ length: PLOTS }, (_, index) => ({
    plot: String(index + 1),
    block: null,
    treatment: (index % 4) + 1,
    row: Math.floor(index / 10) + 1,
    column: (index % 10) + 1,
  }));
  return { ...plan, layout: plan.layout && { ...plan.layout, design: 'own' as const }, plots };
}

export async function measureBoardSpeed(): Promise<BoardSpeed> {
  const { page, close } = await openApp(2);
  try {
    const plan = largePlan();
    const dates = plan.ratings.flatMap(({ timing }) => (timing.kind === 'date' ? [timing.date] : []));
    const names = dates.flatMap((date) => plan.plots.map(({ plot }) => `${date}_${plot}.jpg`));
    await page.getByRole('link', { name: 'Plan', exact: true }).click();
    await page.getByLabel('Your name or initials').fill('K');
    await page
      .getByLabel('Open a plan file')
      .and(page.locator('input'))
      .setInputFiles({
        name: 'plan.json',
        mimeType: 'application/json',
        buffer: Buffer.from(writeTrialPlan(plan)),
      });
    await page.getByRole('heading', { level: 1, name: plan.trial.name }).waitFor();
    await page.evaluate(storePhotos, names);
    await page.reload();
    const part = (name: string) =>
      page
        .getByRole('navigation', { name: 'Parts of the plan' })
        .getByRole('link', { name, exact: true })
        .click();
    await part('Photos');
    const there = page.locator('[data-state="there"]');
    await there.nth(names.length).waitFor();
    const times: number[] = [];
    for (let repeat = 0; repeat < REPEATS; repeat += 1) {
      await part('Labels');
      await page.getByRole('button', { name: 'Print the labels' }).waitFor();
      times.push(await page.evaluate(timeToBoard, names.length));
    }
    const loading = performance.now();
    await page.reload();
    await there.nth(names.length).waitFor();
    const loadMs = performance.now() - loading;
    return { photos: names.length, openMs: times.sort((a, b) => a - b)[REPEATS >> 1]!, loadMs };
  } finally {
    await close();
  }
}

/** In the page: puts photos into the store as if they had been taken in and their work was done. */
async function storePhotos(names: readonly string[]): Promise<void> {
  const database = await new Promise<IDBDatabase>((resolve, reject) => {
    const opening = indexedDB.open('swardbook');
    opening.onsuccess = () => resolve(opening.result);
    opening.onerror = () => reject(opening.error);
  });
  const transaction = database.transaction('photos', 'readwrite');
  names.forEach((name, index) => {
    const [ratingDate, plot] = name.replace('.jpg', '').split('_');
    transaction.objectStore('photos').put({
      id: `photo-${index}`,
      trialId: null,
      name,
      sha256: index.toString(16).padStart(64, '0'),
      byteCount: 1,
      plot,
      place: null,
      ratingDate,
      namedBy: 'file-name',
      takenAt: `${ratingDate}T09:00:00`,
      label: { texts: [], readAt: '2027-04-12T00:00:00.000Z' },
      widthPx: 4000,
      heightPx: 3000,
      addedAt: '2027-04-12T00:00:00.000Z',
    });
  });
  await new Promise((resolve, reject) => {
    transaction.oncomplete = resolve;
    transaction.onerror = reject;
  });
  database.close();
}

/** In the page: presses the board's link and waits for the frame that shows all photos in their cells. */
function timeToBoard(photos: number): Promise<number> {
  const link = [...document.querySelectorAll<HTMLElement>('nav a[href$="/plan/photos"]')].at(-1)!;
  const started = performance.now();
  return new Promise((resolve) => {
    const look = () => {
      if (document.querySelectorAll('td [data-state="there"]').length < photos)
        return requestAnimationFrame(look);
      // the callback of the frame after: what was drawn is on screen
      requestAnimationFrame(() => resolve(performance.now() - started));
    };
    link.click();
    requestAnimationFrame(look);
  });
}
