import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import type { Classification, CoverFlag } from '../../src/core/classifier/classification.ts';
import { classifyWithStartModel, START_MODEL_ID } from '../../src/core/classifier/startModel.ts';
import { neutralGains } from '../../src/core/colour/neutralGains.ts';
import { type MeasuredAreaOptions, measuredArea } from '../../src/core/geometry/measuredArea.ts';
import { type PhotoPoint, photoPoint, type Quadrilateral } from '../../src/core/geometry/points.ts';
import type { RgbaRaster } from '../../src/core/raster/rgbaRaster.ts';
import { DEFAULT_CLASSES } from '../../src/core/trial/defaultClasses.ts';
import { sharedPath } from '../support/sharedFolder.ts';

type Pair = readonly [number, number];

interface SamplePhoto {
  readonly photo: string;
  readonly truth: string;
  readonly plot: string;
  readonly ratingDate: string;
  readonly conditions: readonly string[];
  readonly frame: readonly [Pair, Pair, Pair, Pair];
  readonly frameSizeMm: Pair;
  readonly greyCard: readonly [number, number, number, number] | null;
  readonly greyCardCorners: readonly Pair[] | null;
  readonly coverPercentOfGround: Readonly<Record<string, number>>;
}

/** How one photo came out. Cover in percent of ground, in class order; errors in percentage points. */
export interface PhotoAccuracy {
  readonly photo: string;
  readonly tuning: boolean;
  readonly conditions: readonly string[];
  readonly estimated: readonly number[];
  readonly truth: readonly number[];
  /** Mean over classes of the absolute error. */
  readonly coverError: number;
  /** Intersection over union by class; null where neither mask nor truth has the class. */
  readonly iou: readonly (number | null)[];
  readonly meanIou: number;
  /** Share of pixels with the right label. */
  readonly accuracy: number;
  readonly flags: readonly CoverFlag[];
}

export interface Summary {
  readonly name: string;
  readonly photos: number;
  readonly coverError: number;
  readonly largestCoverError: number;
  readonly meanIou: number;
  readonly accuracy: number;
  readonly flagged: number;
}

export interface AccuracyReport {
  readonly modelId: string;
  readonly photos: readonly PhotoAccuracy[];
  /** Odd and even plots, then the even plots by rating date and by condition. */
  readonly summaries: readonly Summary[];
  /** Open dataset: vegetation against ground; null where it is not on this machine. */
  readonly openDataset: readonly PhotoAccuracy[] | null;
  /** A hue rule scripted with general libraries on the even plots, from the peer's own file; null without it. */
  readonly peerCoverError: number | null;
}

const sampleFolder = fileURLToPath(new URL('../../sample-images/', import.meta.url));

export interface AccuracyOptions {
  /** Which sample photos, by file name. @default all of them */
  readonly only?: (photo: string) => boolean;
  /** @default true */
  readonly openDataset?: boolean;
}

/** Runs the start model on sample photos and on the open dataset, and compares with the truth. */
export async function measureAccuracy(options: AccuracyOptions = {}): Promise<AccuracyReport> {
  const { only = () => true, openDataset = true } = options;
  const { photos: samples } = JSON.parse(await readFile(`${sampleFolder}photos.json`, 'utf8')) as {
    photos: SamplePhoto[];
  };
  const photos: PhotoAccuracy[] = [];
  for (const sample of samples) if (only(sample.photo)) photos.push(await scoreSample(sample));
  const even = photos.filter(({ tuning }) => !tuning);
  const groups = new Map<string, PhotoAccuracy[]>();
  for (const photo of even) {
    for (const group of [photo.photo.slice(0, 10), ...photo.conditions]) {
      groups.set(group, [...(groups.get(group) ?? []), photo]);
    }
  }
  return {
    modelId: START_MODEL_ID,
    photos,
    summaries: [
      summarise(
        'odd plots (tuned on)',
        photos.filter(({ tuning }) => tuning),
      ),
      summarise('even plots', even),
      ...[...groups].sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, members]) => summarise(name, members)),
    ],
    openDataset: openDataset ? await scoreOpenDataset() : null,
    peerCoverError: await peerCoverError(),
  };
}

/** The report as a table for people. */
export function accuracyTable(report: AccuracyReport): string {
  const fixed = (value: number, digits: number) => value.toFixed(digits).padStart(7);
  const lines = [
    `Accuracy of ${report.modelId} (cover error: mean over classes, percentage points)`,
    '',
    `${'photos'.padEnd(26)}     n   error largest mean IoU accuracy flagged`,
  ];
  for (const {
    name,
    photos,
    coverError,
    largestCoverError,
    meanIou,
    accuracy,
    flagged,
  } of report.summaries) {
    lines.push(
      `${name.padEnd(26)}${String(photos).padStart(6)} ${fixed(coverError, 2)} ${fixed(largestCoverError, 2)} ${fixed(meanIou, 3)} ${fixed(accuracy, 3)} ${String(flagged).padStart(7)}`,
    );
  }
  lines.push(
    '',
    report.peerCoverError === null
      ? 'hue rule of the peer: not on this machine'
      : `hue rule of the peer, even plots: ${report.peerCoverError.toFixed(2)}`,
  );
  lines.push('', 'Open dataset, vegetation against ground');
  if (report.openDataset === null) lines.push('not measured: not on this machine');
  else {
    for (const { photo, iou, meanIou, estimated, truth, coverError, flags } of report.openDataset) {
      lines.push(
        `${photo.padEnd(10)} IoU ${iou.map((value) => (value ?? Number.NaN).toFixed(3)).join(' / ')} mean ${meanIou.toFixed(3)}  vegetation ${estimated[0]!.toFixed(1)} % (truth ${truth[0]!.toFixed(1)} %), error ${coverError.toFixed(2)}  ${flags.join(';')}`,
      );
    }
    const all = summarise('open dataset', report.openDataset);
    lines.push(`mean of the two IoUs ${all.meanIou.toFixed(3)}, cover error ${all.coverError.toFixed(2)}`);
  }
  return lines.join('\n');
}

async function scoreSample(sample: SamplePhoto): Promise<PhotoAccuracy> {
  const raster = await decode(sampleFolder + sample.photo);
  const classification = await classify(raster, {
    frame: {
      corners: sample.frame.map(toPoint) as unknown as Quadrilateral<'photo'>,
      sizeMm: [sample.frameSizeMm[0], sample.frameSizeMm[1]],
    },
    ignored: sample.greyCardCorners ? [sample.greyCardCorners.map(toPoint)] : [],
    neutral: sample.greyCard,
  });
  const labels = await decodeLabels(sampleFolder + sample.truth);
  const truth = DEFAULT_CLASSES.map(({ id }) => sample.coverPercentOfGround[id]!);
  const estimated = classification.coverFraction.map((share) => 100 * share);
  return {
    photo: sample.photo.replace(/^photos\//, ''),
    tuning: Number(sample.plot) % 2 === 1,
    conditions: sample.conditions,
    estimated,
    truth,
    coverError: meanAbsoluteDifference(estimated, truth),
    ...agreement(classification.mask.labels, labels, DEFAULT_CLASSES.length),
    flags: classification.flags,
  };
}

/** Truth codes there: 0 soil, 1 crop, 2 weed. Here 1 vegetation, 2 ground. */
async function scoreOpenDataset(): Promise<PhotoAccuracy[] | null> {
  const folder = sharedPath('open-data/peanut-field');
  if (!folder) return null;
  const { images } = JSON.parse(await readFile(`${folder}/manifest.json`, 'utf8')) as {
    images: { image: string; label: string }[];
  };
  const scores: PhotoAccuracy[] = [];
  for (const { image, label } of images) {
    const raster = await decode(`${folder}/${image}`);
    const classification = await classify(raster, {});
    const truthLabels = (await decodeLabels(`${folder}/${label}`)).map((code) => (code === 0 ? 2 : 1));
    const labels = classification.mask.labels.map((code) => (code === 3 ? 2 : 1));
    const vegetation = truthLabels.reduce((sum, code) => sum + (code === 1 ? 1 : 0), 0) / truthLabels.length;
    const truth = [100 * vegetation, 100 - 100 * vegetation];
    const ground = 100 * classification.coverFraction[2]!;
    const estimated = [100 - ground, ground];
    scores.push({
      photo: image.replace(/^images\//, ''),
      tuning: false,
      conditions: [],
      estimated,
      truth,
      coverError: meanAbsoluteDifference(estimated, truth),
      ...agreement(labels, truthLabels, 2),
      flags: classification.flags,
    });
  }
  return scores;
}

async function peerCoverError(): Promise<number | null> {
  const path = sharedPath('peer/peer.json');
  if (!path) return null;
  const { start } = JSON.parse(await readFile(path, 'utf8')) as {
    start: { hue: Record<string, { coverError: number }> };
  };
  const even = Object.entries(start.hue).filter(([photo]) => Number(photo.slice(11, 14)) % 2 === 0);
  return even.reduce((sum, [, { coverError }]) => sum + coverError, 0) / even.length;
}

function classify(raster: RgbaRaster, options: MeasuredAreaOptions): Promise<Classification> {
  return classifyWithStartModel({
    raster,
    area: measuredArea(raster.widthPx, raster.heightPx, options),
    classes: DEFAULT_CLASSES,
    neutralGains: options.neutral ? neutralGains(raster, options.neutral) : null,
  });
}

/** Pixels that both masks label, compared. */
function agreement(
  labels: Uint8Array,
  truth: Uint8Array,
  classCount: number,
): { iou: (number | null)[]; meanIou: number; accuracy: number } {
  const both = new Float64Array(classCount + 1);
  const ours = new Float64Array(classCount + 1);
  const theirs = new Float64Array(classCount + 1);
  let pixels = 0;
  let right = 0;
  for (let pixel = 0; pixel < labels.length; pixel += 1) {
    const label = labels[pixel]!;
    const code = truth[pixel]!;
    if (label === 0 || code === 0) continue;
    pixels += 1;
    ours[label]! += 1;
    theirs[code]! += 1;
    if (label === code) {
      both[label]! += 1;
      right += 1;
    }
  }
  const iou = Array.from({ length: classCount }, (_, index) => {
    const union = ours[index + 1]! + theirs[index + 1]! - both[index + 1]!;
    return union === 0 ? null : both[index + 1]! / union;
  });
  const known = iou.filter((value) => value !== null);
  return {
    iou,
    meanIou: known.reduce((sum, value) => sum + value, 0) / known.length,
    accuracy: right / pixels,
  };
}

function summarise(name: string, photos: readonly PhotoAccuracy[]): Summary {
  const mean = (value: (photo: PhotoAccuracy) => number) =>
    photos.reduce((sum, photo) => sum + value(photo), 0) / photos.length;
  return {
    name,
    photos: photos.length,
    coverError: mean(({ coverError }) => coverError),
    largestCoverError: Math.max(...photos.map(({ coverError }) => coverError)),
    meanIou: mean(({ meanIou }) => meanIou),
    accuracy: mean(({ accuracy }) => accuracy),
    flagged: photos.filter(({ flags }) => flags.length > 0).length,
  };
}

const meanAbsoluteDifference = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, index) => sum + Math.abs(value - b[index]!), 0) / a.length;

const toPoint = ([x, y]: Pair): PhotoPoint => photoPoint(x, y);

async function decode(path: string): Promise<RgbaRaster> {
  const { data, info } = await sharp(path).rotate().ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  return {
    widthPx: info.width,
    heightPx: info.height,
    data: new Uint8ClampedArray(data), // a copy: a Buffer may share its memory
  };
}

async function decodeLabels(path: string): Promise<Uint8Array> {
  const { data, info } = await sharp(path).raw().toBuffer({ resolveWithObject: true });
  if (info.channels === 1) return new Uint8Array(data);
  return Uint8Array.from({ length: info.width * info.height }, (_, pixel) => data[pixel * info.channels]!);
}
