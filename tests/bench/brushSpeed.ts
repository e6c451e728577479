import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';
import sharp from 'sharp';
import { seededRandom } from '../support/seededRandom.ts';
import { median } from './median.ts';
import { measureInApp, openApp } from './openApp.ts';

/** From the time stamp of a pointer's move to the end of the frame after it, in milliseconds. */
export interface FrameTimes {
  readonly moves: number;
  readonly medianMs: number;
  readonly p95Ms: number;
}

/** The brush on the mask of a 12-megapixel photo, through the real screen, beside a canvas on which nothing is drawn. */
export interface BrushSpeed {
  readonly brush: FrameTimes;
  /** With the photo at 1:1, so that the whole stage is mask. */
  readonly brushAtActualPixels: FrameTimes;
  readonly emptyCanvas: FrameTimes;
}

const STROKES = 12;
const MOVES = 25;
/** Between two moves, as of a mouse that reports 60 times a second. */
const INTERVAL_MS = 16;

export async function measureBrushSpeed(): Promise<BrushSpeed> {
  const folder = await mkdtemp(join(tmpdir(), 'swardbook-brush-'));
  const file = join(folder, '2027-05-17_101.jpg');
  const { browser, page, close } = await openApp(2);
  try {
    const path = fileURLToPath(new URL('../../sample-images/photos/2027-05-17_101.jpg', import.meta.url));
    await sharp(path).resize(4000, 3000).jpeg({ quality: 90 }).toFile(file);
    await measureInApp(page, [file]);
    await page.getByRole('link', { name: /^Show the cover of/ }).click();
    await page.getByRole('button', { name: 'Correct by hand' }).click();
    const stage = page.getByRole('group', { name: /to be corrected/ });
    await page
      .getByRole('status')
      .filter({ hasText: /^Cover:/ })
      .waitFor({ state: 'attached' });
    const box = (await stage.boundingBox())!;
    await watchFrames(page);
    const brush = await paint(page, box);
    // the same with all of the stage inside the photo
    for (let i = 0; i < 4; i += 1) await page.keyboard.press('+');
    await page.waitForTimeout(500);
    const brushAtActualPixels = await paint(page, box);

    const empty = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await empty.setContent(
      `<body style="margin:0"><canvas width="${Math.round(box.width)}" height="${Math.round(box.height)}"></canvas>`,
    );
    await watchFrames(empty);
    // a frame is asked for as the brush does, and nothing is drawn in it
    await empty.evaluate(() => {
      const context = document.querySelector('canvas')!.getContext('2d')!;
      addEventListener('pointermove', () => requestAnimationFrame(() => context.clearRect(0, 0, 1, 1)));
    });
    const emptyCanvas = await paint(empty, { ...box, x: 0, y: 0 });
    return { brush, brushAtActualPixels, emptyCanvas };
  } finally {
    await close();
    await rm(folder, { recursive: true, force: true });
  }
}

/** Notes for every move when the frame after it is done: a message posted in its animation frame comes after it. */
async function watchFrames(page: Page): Promise<void> {
  await page.evaluate(() => {
    const times: number[] = [];
    (window as unknown as { frameTimes: number[] }).frameTimes = times;
    document.addEventListener(
      'pointermove',
      ({ timeStamp }) => {
        requestAnimationFrame(() => {
          const { port1, port2 } = new MessageChannel();
          port1.onmessage = () => times.push(performance.now() - timeStamp);
          port2.postMessage(null);
        });
      },
      true,
    );
  });
}

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

async function paint(page: Page, { x, y, width, height }: Box): Promise<FrameTimes> {
  const random = seededRandom(3);
  await page.evaluate(() => {
    (window as unknown as { frameTimes: number[] }).frameTimes.length = 0;
  });
  for (let stroke = 0; stroke < STROKES; stroke += 1) {
    await page.keyboard.press(String(1 + (stroke % 3)));
    let [atX, atY] = [x + width * (0.3 + 0.4 * random()), y + height * (0.3 + 0.4 * random())];
    await page.mouse.move(atX, atY);
    await page.mouse.down();
    for (let move = 0; move < MOVES; move += 1) {
      atX += 12 * (random() - 0.4);
      atY += 12 * (random() - 0.4);
      await page.mouse.move(atX, atY);
      await page.waitForTimeout(INTERVAL_MS);
    }
    await page.mouse.up();
    await page.waitForTimeout(50);
  }
  const times = await page.evaluate(() => (window as unknown as { frameTimes: number[] }).frameTimes);
  const sorted = times.sort((a, b) => a - b);
  return {
    moves: sorted.length,
    medianMs: median(sorted),
    p95Ms: sorted[Math.ceil(0.95 * sorted.length) - 1]!,
  };
}

/** What the brush takes beyond an empty canvas, 95th percentile, the larger of the two views. */
export const brushBeyondEmpty = ({ brush, brushAtActualPixels, emptyCanvas }: BrushSpeed): number =>
  Math.max(brush.p95Ms, brushAtActualPixels.p95Ms) - emptyCanvas.p95Ms;

export function brushSpeedTable({ brush, brushAtActualPixels, emptyCanvas }: BrushSpeed): string {
  const line = (name: string, { moves, medianMs, p95Ms }: FrameTimes) =>
    `  ${name.padEnd(34)} ${String(moves).padStart(5)} moves, median ${medianMs.toFixed(1)} ms, 95 % ${p95Ms.toFixed(1)} ms`;
  return [
    'Brush on the mask of a 12-MP photo, event to frame after',
    line('whole photo in sight', brush),
    line('enlarged', brushAtActualPixels),
    line('empty canvas', emptyCanvas),
  ].join('\n');
}
