import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import type { TeachingPhoto } from '../../src/core/classifier/coverModel.ts';
import { photoLook, sampleCells } from '../../src/core/classifier/photoLook.ts';
import { type TeachingStroke, trainingSamples } from '../../src/core/classifier/trainingSamples.ts';
import { extractFeatures, type FeaturePlanes } from '../../src/core/features/featurePlanes.ts';
import { type MeasuredArea, measuredArea } from '../../src/core/geometry/measuredArea.ts';
import { photoPoint, type Quadrilateral } from '../../src/core/geometry/points.ts';
import type { RgbaRaster } from '../../src/core/raster/rgbaRaster.ts';
import { DEFAULT_CLASSES } from '../../src/core/trial/defaultClasses.ts';
import { repeatableRandom } from '../../src/core/trial/repeatableRandom.ts';

type Pair = readonly [number, number];

/** A sample photo with its truth, ready to teach and to be judged. */
export interface TaughtSample {
  readonly name: string;
  readonly plot: string;
  readonly block: number;
  readonly treatment: string;
  readonly ratingDate: string;
  readonly conditions: readonly string[];
  readonly raster: RgbaRaster;
  readonly area: MeasuredArea;
  readonly features: FeaturePlanes;
  readonly truthLabels: Uint8Array;
  /** Percent of ground, in class order. */
  readonly truth: readonly number[];
}

export const CLASS_IDS = DEFAULT_CLASSES.map(({ id }) => id);

const folder = fileURLToPath(new URL('../../sample-images/', import.meta.url));

export async function loadTaughtSamples(): Promise<TaughtSample[]> {
  const { photos } = JSON.parse(await readFile(`${folder}photos.json`, 'utf8')) as {
    photos: {
      photo: string;
      truth: string;
      plot: string;
      ratingDate: string;
      conditions: string[];
      frame: Pair[];
      frameSizeMm: Pair;
      greyCardCorners: Pair[] | null;
      coverPercentOfGround: Record<string, number>;
    }[];
  };
  const { plots } = JSON.parse(await readFile(`${folder}trial.json`, 'utf8')) as {
    plots: { plot: string; block: number; treatment: string }[];
  };
  const samples: TaughtSample[] = [];
  for (const entry of photos) {
    const raster = await decodePhoto(folder + entry.photo);
    const toPoint = ([x, y]: Pair) => photoPoint(x, y);
    const area = measuredArea(raster.widthPx, raster.heightPx, {
      frame: {
        corners: entry.frame.map(toPoint) as unknown as Quadrilateral<'photo'>,
        sizeMm: [entry.frameSizeMm[0], entry.frameSizeMm[1]],
      },
      ignored: entry.greyCardCorners ? [entry.greyCardCorners.map(toPoint)] : [],
    });
    const { block, treatment } = plots.find(({ plot }) => plot === entry.plot)!;
    samples.push({
      name: `${entry.ratingDate}_${entry.plot}`,
      plot: entry.plot,
      block,
      treatment,
      ratingDate: entry.ratingDate,
      conditions: entry.conditions,
      raster,
      area,
      features: await extractFeatures(raster, area),
      truthLabels: await decodeLabels(folder + entry.truth),
      truth: CLASS_IDS.map((id) => entry.coverPercentOfGround[id]!),
    });
  }
  return samples;
}

/** Single pixels of each class drawn from the truth, as strokes of radius 0. */
export function drawnStrokes(
  { truthLabels, raster, area }: TaughtSample,
  pixelsPerClass: number,
  seed: number,
): TeachingStroke[] {
  const random = repeatableRandom(seed);
  return CLASS_IDS.flatMap((classId, c) => {
    const pixels: number[] = [];
    for (let pixel = 0; pixel < truthLabels.length; pixel += 1) {
      if (truthLabels[pixel] === c + 1 && area.inside[pixel] === 1) pixels.push(pixel);
    }
    const wanted = Math.min(pixelsPerClass, pixels.length);
    for (let taken = 0; taken < wanted; taken += 1) {
      const at = taken + Math.floor(random() * (pixels.length - taken));
      [pixels[taken], pixels[at]] = [pixels[at]!, pixels[taken]!];
    }
    return pixels.slice(0, wanted).map((pixel) => {
      const y = Math.floor(pixel / raster.widthPx);
      return { classId, radiusPx: 0, points: [photoPoint(pixel - y * raster.widthPx + 0.5, y + 0.5)] };
    });
  });
}

export function teachingPhoto(sample: TaughtSample, pixelsPerClass: number, seed: number): TeachingPhoto {
  const strokes = drawnStrokes(sample, pixelsPerClass, seed);
  return {
    photoSha256: sample.name, // stands for the hash: any text that tells photos apart
    look: photoLook(sampleCells(sample.features)),
    samples: trainingSamples(strokes, sample.area, sample.features, CLASS_IDS).samples,
  };
}

export const isOdd = ({ plot }: TaughtSample): boolean => Number(plot) % 2 === 1;

/** Sets of four plots of a date, one in each block and of each treatment. */
export function teachingSets(samples: readonly TaughtSample[]): TaughtSample[][] {
  const ofBlock = (block: number) => samples.filter((sample) => sample.block === block);
  const extend = (sets: TaughtSample[][], block: number): TaughtSample[][] =>
    sets.flatMap((set) =>
      ofBlock(block)
        .filter(({ treatment }) => set.every((member) => member.treatment !== treatment))
        .map((member) => [...set, member]),
    );
  return [1, 2, 3, 4].reduce(extend, [[]]);
}

/** Mean over the classes that either mask or truth has. */
export function meanIou(labels: Uint8Array, truth: Uint8Array, classCount: number): number {
  const counts = Array.from({ length: classCount + 1 }, () => new Float64Array(classCount + 1));
  for (let pixel = 0; pixel < labels.length; pixel += 1) counts[truth[pixel]!]![labels[pixel]!]! += 1;
  const ious: number[] = [];
  for (let c = 1; c <= classCount; c += 1) {
    let union = -counts[c]![c]!;
    for (let other = 1; other <= classCount; other += 1) union += counts[c]![other]! + counts[other]![c]!;
    if (union > 0) ious.push(counts[c]![c]! / union);
  }
  return ious.reduce((sum, iou) => sum + iou, 0) / ious.length;
}

export const coverError = (estimated: readonly number[], truth: readonly number[]): number =>
  estimated.reduce((sum, value, c) => sum + Math.abs(value - truth[c]!), 0) / estimated.length;

async function decodePhoto(path: string): Promise<RgbaRaster> {
  const { data, info } = await sharp(path).rotate().ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  return { widthPx: info.width, heightPx: info.height, data: new Uint8ClampedArray(data) };
}

async function decodeLabels(path: string): Promise<Uint8Array> {
  const { data, info } = await sharp(path).raw().toBuffer({ resolveWithObject: true });
  return Uint8Array.from({ length: info.width * info.height }, (_, pixel) => data[pixel * info.channels]!);
}
