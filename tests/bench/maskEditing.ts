import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { classCounts } from '../../src/core/cover/classCounts.ts';
import { type MeasuredArea, measuredArea } from '../../src/core/geometry/measuredArea.ts';
import { collectRuns, type PixelRuns } from '../../src/core/geometry/pixelRuns.ts';
import { photoPoint } from '../../src/core/geometry/points.ts';
import { forEachPolygonRun } from '../../src/core/geometry/polygonRuns.ts';
import { applyPatch } from '../../src/core/mask/applyPatch.ts';
import type { BrushPoint } from '../../src/core/mask/brushRuns.ts';
import { beginStroke } from '../../src/core/mask/brushStroke.ts';
import { growByLikeness, likenessField } from '../../src/core/mask/colourLikeness.ts';
import { connectedPatch } from '../../src/core/mask/connectedPatch.ts';
import { type CorrectedMask, correctedMask } from '../../src/core/mask/correctedMask.ts';
import { encodeCorrections, encodePatch } from '../../src/core/mask/correctionBytes.ts';
import { emptyCorrections } from '../../src/core/mask/correctionLayer.ts';
import { type CorrectionPatch, invertPatch } from '../../src/core/mask/correctionPatch.ts';
import { beginEdit, finishEdit, type Paint, paintRuns } from '../../src/core/mask/maskEdit.ts';
import { smoothOutline } from '../../src/core/mask/smoothOutline.ts';
import { updateCounts } from '../../src/core/mask/updateCounts.ts';
import type { LabelMask } from '../../src/core/raster/labelMask.ts';
import type { RgbaRaster } from '../../src/core/raster/rgbaRaster.ts';
import { seededRandom } from '../support/seededRandom.ts';
import { median } from './median.ts';

/** Time of one kind of step in milliseconds. */
export interface StepTime {
  readonly steps: number;
  readonly medianMs: number;
  readonly p95Ms: number;
  readonly largestMs: number;
}

/** What strokes take in bytes. */
export interface StrokeSizes {
  readonly count: number;
  readonly meanLengthPx: number;
  /** All patches of the strokes, as they are kept for undo and as they are stored. */
  readonly patchesMb: number;
  readonly largestPatchKb: number;
  /** The corrections they add up to, as they are stored. */
  readonly correctionsMb: number;
  /** Corrections in memory: tiles of 4096 bytes. */
  readonly tilesMb: number;
}

/** Correcting a 12-megapixel mask: what undo takes in memory, and how long each step takes. */
export interface MaskEditing {
  readonly megapixels: number;
  readonly strokes: StrokeSizes;
  /** The hardest case: a mask in which every third pixel is a speck, every stroke only over one class. */
  readonly speckledStrokes: StrokeSizes;
  readonly times: Readonly<Record<string, StepTime>>;
}

const SCALE = 4;
const STROKES = 200;
const CLASSES = 3;

/** Runs on a sample photo and its true classes, both enlarged four times to 4000 x 3000 pixels; seeded. */
export async function measureMaskEditing(): Promise<MaskEditing> {
  const random = seededRandom(12);
  const automatic = await enlargedTruth('2027-05-17_101');
  const raster = await enlargedPhoto('2027-05-17_101');
  const { widthPx, heightPx } = automatic;
  const area = areaOf(automatic);
  const mask = correctedMask(automatic, emptyCorrections(widthPx, heightPx), CLASSES);
  const times = new Map<string, number[]>();
  const record: Recorder = (name, ms) => {
    const list = times.get(name);
    if (list) list.push(ms);
    else times.set(name, [ms]);
  };
  const timed: Timed = (name, run) => {
    const started = performance.now();
    const result = run();
    record(name, performance.now() - started);
    return result;
  };

  const strokes = measureStrokes(mask, area, random, timed);
  const speckled = correctedMask(
    speckledMask(automatic, random),
    emptyCorrections(widthPx, heightPx),
    CLASSES,
  );
  const speckledStrokes = measureStrokes(speckled, area, random, (_name, run) => run(), true);

  await measureFills(mask, raster, area, random, timed, record);
  return {
    megapixels: (widthPx * heightPx) / 1e6,
    strokes,
    speckledStrokes,
    times: Object.fromEntries([...times].map(([name, list]) => [name, stepTime(list)])),
  };
}

type Timed = <Result>(name: string, run: () => Result) => Result;
type Recorder = (name: string, ms: number) => void;

/**
 * Paints the strokes, undoes and redoes them all: hand-like walks of 60 to 100 moves, every third only over one class,
 * every tenth taking corrections back.
 */
function measureStrokes(
  mask: CorrectedMask,
  area: MeasuredArea,
  random: () => number,
  timed: Timed,
  alwaysOverOneClass = false,
): StrokeSizes {
  const { automatic } = mask;
  const { widthPx, heightPx } = automatic;
  const patches: CorrectionPatch[] = [];
  let counts = classCounts(automatic, area, CLASSES);
  let lengthPx = 0;
  for (let i = 0; i < STROKES; i += 1) {
    const paint: Paint = {
      label: i % 10 === 9 ? 0 : 1 + Math.floor(random() * CLASSES),
      onlyOver: alwaysOverOneClass || i % 3 === 0 ? 1 + Math.floor(random() * CLASSES) : null,
    };
    const radiusPx = i % 2 === 0 ? 60 : 10 + 50 * random();
    const moves = walk(random, widthPx, heightPx, radiusPx);
    const edit = timed('open an edit', () => beginEdit(mask));
    const stroke = beginStroke(edit, paint);
    moves.forEach((move, k) => {
      timed(radiusPx === 60 ? 'brush move, radius 60 px' : 'brush move, radius 10 to 60 px', () =>
        stroke.moveTo(move),
      );
      const [a, b] = [moves[Math.max(0, k - 1)]!.at, move.at];
      lengthPx += Math.hypot(b[0] - a[0], b[1] - a[1]);
    });
    const patch = timed('finish a stroke', () => finishEdit(edit));
    if (!patch) continue;
    counts = timed('cover after a stroke', () => updateCounts(counts, patch, automatic, area));
    patches.push(patch);
  }
  const stored = patches.map((patch) => encodePatch(patch).length);
  const corrections = timed('all corrections to bytes', () => encodeCorrections(mask.corrections));
  const size = {
    count: patches.length,
    meanLengthPx: lengthPx / STROKES,
    patchesMb: sum(stored) / 1e6,
    largestPatchKb: Math.max(...stored) / 1e3,
    correctionsMb: corrections.length / 1e6,
    tilesMb: (mask.corrections.tiles.size * 4096) / 1e6,
  };
  for (const patch of patches.toReversed())
    timed('undo a stroke', () => applyPatch(mask, invertPatch(patch)));
  if (mask.corrections.tiles.size > 0) throw new Error('undoing every stroke left corrections');
  for (const patch of patches) timed('redo a stroke', () => applyPatch(mask, patch));
  const recounted = classCounts(mask.effective, area, CLASSES);
  if (recounted.ground.some((value, i) => value !== counts.ground[i])) {
    throw new Error('counts kept in step differ from a recount');
  }
  return size;
}

async function measureFills(
  mask: CorrectedMask,
  raster: RgbaRaster,
  area: MeasuredArea,
  random: () => number,
  timed: Timed,
  record: Recorder,
): Promise<void> {
  const { widthPx, heightPx } = mask.automatic;
  const inside = () => photoPoint(widthPx * (0.35 + 0.3 * random()), heightPx * (0.3 + 0.4 * random()));
  const fill = (name: string, region: () => PixelRuns, paint: Paint) => {
    const edit = beginEdit(mask);
    timed(name, () => paintRuns(edit, region(), paint));
    finishEdit(edit);
  };
  for (let i = 0; i < 15; i += 1) {
    const seed = inside();
    fill('fill a connected patch', () => connectedPatch(mask.effective, seed), { label: 1 + (i % CLASSES) });
    const middle = inside();
    const lasso = Array.from({ length: 400 }, (_, k) => {
      const reach = 500 + 60 * random();
      const turn = (2 * Math.PI * k) / 400;
      return photoPoint(middle[0] + reach * Math.cos(turn), middle[1] + reach * Math.sin(turn));
    });
    const region = () => collectRuns((visit) => forEachPolygonRun(lasso, widthPx, heightPx, visit));
    fill('fill a lasso, radius 500 px', region, {
      label: 1 + (i % CLASSES),
      onlyOver: 1 + ((i + 1) % CLASSES),
    });
    const edit = beginEdit(mask);
    timed('smooth a lasso, radius 6 px', () => smoothOutline(edit, region(), 6));
    finishEdit(edit);

    const [x, y] = inside();
    const box = { left: x - 500, top: y - 500, right: x + 500, bottom: y + 500 };
    const started = performance.now();
    const field = await likenessField(raster, area, photoPoint(x, y), { box });
    record('grow by likeness in 1 MP: prepare', performance.now() - started);
    if (!field) continue;
    timed('grow by likeness in 1 MP: each tolerance', () =>
      growByLikeness(field, { tolerance: 8, largestStep: 6 }),
    );
  }
}

export function maskEditingTable({ megapixels, strokes, speckledStrokes, times }: MaskEditing): string {
  const sizes = (name: string, size: StrokeSizes) =>
    `  ${name}: ${size.count} strokes, ${size.meanLengthPx.toFixed(0)} px long on average: patches ${size.patchesMb.toFixed(2)} MB ` +
    `(largest ${size.largestPatchKb.toFixed(0)} kB), corrections ${size.correctionsMb.toFixed(2)} MB stored, ${size.tilesMb.toFixed(1)} MB in memory`;
  const rows = Object.entries(times).map(
    ([name, { steps, medianMs, p95Ms, largestMs }]) =>
      `  ${name.padEnd(44)} ${String(steps).padStart(6)} ${[medianMs, p95Ms, largestMs].map((ms) => ms.toFixed(2).padStart(9)).join('')}`,
  );
  return [
    `Correcting a mask of ${megapixels.toFixed(1)} megapixels`,
    sizes('sample mask', strokes),
    sizes('speckled mask', speckledStrokes),
    `  ${'step'.padEnd(44)} ${'n'.padStart(6)}${'median'.padStart(10)}${'95 %'.padStart(9)}${'largest'.padStart(9)} ms`,
    ...rows,
  ].join('\n');
}

/** The mask with every third measured pixel at random of another class. */
function speckledMask({ widthPx, heightPx, labels }: LabelMask, random: () => number): LabelMask {
  const speckled = labels.map((label) =>
    label === 0 || random() >= 1 / 3 ? label : 1 + ((label + Math.floor(random() * (CLASSES - 1))) % CLASSES),
  );
  return { widthPx, heightPx, labels: speckled };
}

/** A hand's way: a direction that drifts, moves of 5 to 25 px as a pointer reports them. */
function walk(random: () => number, widthPx: number, heightPx: number, radiusPx: number): BrushPoint[] {
  let [x, y] = [widthPx * (0.25 + 0.5 * random()), heightPx * (0.15 + 0.7 * random())];
  let direction = 2 * Math.PI * random();
  return Array.from({ length: 60 + Math.floor(40 * random()) }, () => {
    const point = { at: photoPoint(x, y), radiusPx };
    direction += 0.6 * (random() - 0.5);
    const step = 5 + 20 * random();
    x += step * Math.cos(direction);
    y += step * Math.sin(direction);
    return point;
  });
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

function stepTime(ms: readonly number[]): StepTime {
  const sorted = [...ms].sort((a, b) => a - b);
  return {
    steps: ms.length,
    medianMs: median(ms),
    p95Ms: sorted[Math.ceil(0.95 * sorted.length) - 1]!,
    largestMs: sorted.at(-1)!,
  };
}

const samplePath = (path: string) => fileURLToPath(new URL(`../../sample-images/${path}`, import.meta.url));

async function enlargedTruth(name: string): Promise<LabelMask> {
  const { data, info } = await sharp(samplePath(`truth/${name}.png`))
    .extractChannel(0)
    .raw()
    .toBuffer({ resolveWithObject: true });
  const widthPx = info.width * SCALE;
  const heightPx = info.height * SCALE;
  const labels = Uint8Array.from(
    { length: widthPx * heightPx },
    (_, i) => data[Math.floor(i / widthPx / SCALE) * info.width + Math.floor((i % widthPx) / SCALE)]!,
  );
  return { widthPx, heightPx, labels };
}

async function enlargedPhoto(name: string): Promise<RgbaRaster> {
  const photo = sharp(samplePath(`photos/${name}.jpg`)).rotate();
  const { width, height } = await photo.metadata();
  const { data, info } = await photo
    .resize(width * SCALE, height * SCALE)
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const { buffer, byteOffset, byteLength } = data;
  return {
    widthPx: info.width,
    heightPx: info.height,
    data: new Uint8ClampedArray(new Uint8ClampedArray(buffer, byteOffset, byteLength)),
  };
}

/** The measured area of the enlarged truth: a tilted frame round it, less what the truth does not measure. */
function areaOf({ widthPx, heightPx, labels }: LabelMask): MeasuredArea {
  const whole = measuredArea(widthPx, heightPx, {
    frame: {
      corners: [photoPoint(40, 10), photoPoint(3960, 0), photoPoint(4000, 3000), photoPoint(0, 2990)],
      sizeMm: [660, 500],
    },
  });
  const inside = whole.inside.map((value, i) => (labels[i] === 0 ? 0 : value));
  return { ...whole, inside, measuredPixels: inside.reduce((total, value) => total + value, 0) };
}
