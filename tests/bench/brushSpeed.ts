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
  /** With the photo enlarged, so that the whole stage is mask. */
  readonly brushEnlarged: FrameTimes;
  readonly emptyCanvas: FrameTimes;
}

const TURNS = 6;
const STROKES = 2;
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

    const times = { brush: [] as number[], enlarged: [] as number[], empty: [] as number[] };
    const random = seededRandom(3);
    // turn by turn, so that other work of the machine hits all three alike
    for (let turn = 0; turn < TURNS; turn += 1) {
      await page.bringToFront();
      await page.keyboard.press('0');
      times.brush.push(...(await paint(page, box, random)));
      // all of the stage inside the photo
      for (let i = 0; i < 4; i += 1) await page.keyboard.press('+');
      times.enlarged.push(...(await paint(page, box, random)));
      await empty.bringToFront();
      times.empty.push(...(await paint(empty, { ...box, x: 0, y: 0 }, random)));
    }
    return {
      brush: summary(times.brush),
      brushEnlarged: summary(times.enlarged),
      emptyCanvas: summary(times.empty),
    };
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

/** Paints a few strokes. @returns milliseconds, one a move */
async function paint(
  page: Page,
  { x, y, width, height }: Box,
  random: () => number,
): Promise<readonly number[]> {
  // what opening, zooming and coming to the front set off is over
  await page.waitForTimeout(700);
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
  return page.evaluate(() => (window as unknown as { frameTimes: number[] }).frameTimes);
}

function summary(times: readonly number[]): FrameTimes {
  const sorted = [...times].sort((a, b) => a - b);
  return {
    moves: sorted.length,
    medianMs: median(sorted),
    p95Ms: sorted[Math.ceil(0.95 * sorted.length) - 1]!,
  };
}

/** What the brush takes beyond an empty canvas, 95th percentile, the larger of the two views. */
export const brushBeyondEmpty = ({ brush, brushEnlarged, emptyCanvas }: BrushSpeed): number =>
  Math.max(brush.p95Ms, brushEnlarged.p95Ms) - emptyCanvas.p95Ms;

export function brushSpeedTable({ brush, brushEnlarged, emptyCanvas }: BrushSpeed): string {
  const line = (name: string, { moves, medianMs, p95Ms }: FrameTimes) =>
    `  ${name.padEnd(34)} ${String(moves).padStart(5)} moves, median ${medianMs.toFixed(1)} ms, 95 % ${p95Ms.toFixed(1)} ms`;
  return [
    'Brush on the mask of a 12-MP photo, event to frame after',
    line('whole photo in sight', brush),
    line('enlarged', brushEnlarged),
    line('empty canvas', emptyCanvas),
  ].join('\n');
}
