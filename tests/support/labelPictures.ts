import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { correction, generate } from 'lean-qr';
import sharp from 'sharp';
import { homographyBetween, invertHomography } from '../../src/core/geometry/homography.ts';
import type { Quadrilateral } from '../../src/core/geometry/points.ts';
import { seededRandom } from './seededRandom.ts';

/** A printed label laid into a photo. */
export interface LaidLabel {
  readonly text: string;
  /** Side of one module of the QR code in the photo, before it is tilted, pixels. */
  readonly modulePx: number;
  /** Turned in the plane of the ground. */
  readonly turnDegrees: number;
  /** Leaning away from the camera; 0 lies flat. */
  readonly tiltDegrees: number;
  /** Light on the darker side of a shadow's edge that runs over the code, as a share of the lighter side; 1 for none. */
  readonly shadow: number;
  /** Standard deviation of the blur, pixels. */
  readonly blurPx: number;
}

/** The card round the code: a quiet zone, and beside it room for the plot's number. */
const QUIET_ZONE = 4;
const NUMBER_WIDTH = 20;
const PAPER = [236, 236, 228] as const;
const INK = [28, 27, 30] as const;

/**
 * A sample photo enlarged, with labels laid into it, as a JPEG file. The enlarged turf is softer than a real 12-MP photo;
 * noise of a phone's sensor is added to all of it.
 *
 * @param widthPx of the picture; its height is three quarters of it
 */
export async function photoWithLabels(
  photo: string,
  widthPx: number,
  labels: readonly LaidLabel[],
  seed: number,
): Promise<Buffer> {
  const random = seededRandom(seed);
  const path = fileURLToPath(new URL(`../../sample-images/photos/${photo}`, import.meta.url));
  const heightPx = (widthPx * 3) / 4;
  const pixels = await sharp(readFileSync(path))
    .resize(widthPx, heightPx, { kernel: 'cubic' })
    .removeAlpha()
    .raw()
    .toBuffer();
  for (const label of labels) await layLabel(pixels, widthPx, heightPx, label, random);
  const noise = Float32Array.from({ length: 4096 }, () => (random() + random() + random() - 1.5) * 9);
  for (let at = 0; at < pixels.length; at += 1) {
    pixels[at] = Math.max(0, Math.min(255, pixels[at]! + noise[(at * 1103 + (at >> 9)) & 4095]!));
  }
  return sharp(pixels, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .jpeg({ quality: 85 })
    .toBuffer();
}

async function layLabel(
  pixels: Buffer,
  widthPx: number,
  heightPx: number,
  { text, modulePx, turnDegrees, tiltDegrees, shadow, blurPx }: LaidLabel,
  random: () => number,
): Promise<void> {
  const code = generate(text, { minCorrectionLevel: correction.Q });
  const [columns, rows] = [code.size + 2 * QUIET_ZONE + NUMBER_WIDTH, code.size + 2 * QUIET_ZONE];
  const corners = tiltedCorners(columns * modulePx, rows * modulePx, turnDegrees, tiltDegrees);
  const reach = Math.ceil(Math.max(...corners.flat().map(Math.abs))) + Math.ceil(4 * blurPx) + 2;
  const centre = [widthPx, heightPx].map((size) => reach + random() * (size - 2 * reach)) as [number, number];
  const placed = corners.map(([x, y]) => [x + centre[0], y + centre[1]]) as unknown as Quadrilateral<'photo'>;
  const card = [
    [0, 0],
    [columns, 0],
    [columns, rows],
    [0, rows],
  ] as unknown as Quadrilateral<'card'>;
  const toCard = invertHomography(homographyBetween(card, placed));
  const edge = { direction: random() * 2 * Math.PI, column: (0.3 + 0.4 * random()) * rows, row: 0.5 * rows };
  const [left, top] = [Math.floor(centre[0] - reach), Math.floor(centre[1] - reach)];
  const side = 2 * reach;
  const patch = Buffer.alloc(side * side * 4);
  const SAMPLES = 3;
  for (let y = 0; y < side; y += 1) {
    for (let x = 0; x < side; x += 1) {
      const sum = [0, 0, 0, 0];
      for (let sample = 0; sample < SAMPLES * SAMPLES; sample += 1) {
        const px = left + x + ((sample % SAMPLES) + 0.5) / SAMPLES;
        const py = top + y + (Math.floor(sample / SAMPLES) + 0.5) / SAMPLES;
        const scale = toCard[6] * px + toCard[7] * py + toCard[8];
        const column = (toCard[0] * px + toCard[1] * py + toCard[2]) / scale;
        const row = (toCard[3] * px + toCard[4] * py + toCard[5]) / scale;
        if (column < 0 || column >= columns || row < 0 || row >= rows) continue;
        const dark =
          code.get(Math.floor(column) - QUIET_ZONE, Math.floor(row) - QUIET_ZONE) ||
          isNumber(column, row, rows);
        const across =
          (column - edge.column) * Math.cos(edge.direction) + (row - edge.row) * Math.sin(edge.direction);
        const light = across < 0 ? shadow : 1;
        for (let channel = 0; channel < 3; channel += 1) {
          sum[channel]! += (dark ? INK : PAPER)[channel]! * light;
        }
        sum[3]! += 1;
      }
      const at = (y * side + x) * 4;
      for (let channel = 0; channel < 3; channel += 1)
        patch[at + channel] = sum[channel]! / Math.max(1, sum[3]!);
      patch[at + 3] = (255 * sum[3]!) / (SAMPLES * SAMPLES);
    }
  }
  for (let y = 0; y < side; y += 1) {
    for (let x = 0; x < side; x += 1) {
      const [from, to] = [(y * side + x) * 4, ((top + y) * widthPx + left + x) * 3];
      const opaque = patch[from + 3]! / 255;
      for (let channel = 0; channel < 3; channel += 1) {
        pixels[to + channel] = pixels[to + channel]! * (1 - opaque) + patch[from + channel]! * opaque;
      }
    }
  }
  if (blurPx <= 0) return;
  const region = { left, top, width: side, height: side };
  const raw = { width: widthPx, height: heightPx, channels: 3 } as const;
  const blurred = await sharp(pixels, { raw }).extract(region).blur(blurPx).raw().toBuffer();
  for (let y = 0; y < side; y += 1) {
    blurred.copy(pixels, ((top + y) * widthPx + left) * 3, y * side * 3, (y + 1) * side * 3);
  }
}

/** A block where the plot's number stands, for a reader to stumble over. */
const isNumber = (column: number, row: number, rows: number) => {
  const [x, y] = [column - rows, row - rows / 4];
  return x > 0 && x < 15 && y > 0 && y < rows / 2 && Math.floor(x / 5) !== 1 && Math.floor(y / 3) % 2 === 0;
};

/** Corners of a card about its centre as a camera above sees it, its lower edge nearer the camera than its upper. */
function tiltedCorners(width: number, height: number, turnDegrees: number, tiltDegrees: number) {
  const [turn, tilt] = [turnDegrees, tiltDegrees].map((degrees) => (degrees * Math.PI) / 180) as [
    number,
    number,
  ];
  const distance = 8 * height;
  return [
    [-width / 2, -height / 2],
    [width / 2, -height / 2],
    [width / 2, height / 2],
    [-width / 2, height / 2],
  ].map(([x, y]) => {
    const scale = distance / (distance - y! * Math.sin(tilt));
    const [u, v] = [x! * scale, y! * Math.cos(tilt) * scale];
    return [u * Math.cos(turn) - v * Math.sin(turn), u * Math.sin(turn) + v * Math.cos(turn)] as const;
  });
}
