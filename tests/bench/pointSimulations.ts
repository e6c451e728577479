import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { classifyWithStartModel } from '../../src/core/classifier/startModel.ts';
import { neutralGains } from '../../src/core/colour/neutralGains.ts';
import { coverOfMask } from '../../src/core/cover/coverOfMask.ts';
import { type CheckedPoint, errorMatrix } from '../../src/core/cover/errorMatrix.ts';
import { adjustPhotoCover } from '../../src/core/cover/postStratifiedCover.ts';
import { mapPoint } from '../../src/core/geometry/homography.ts';
import { type MeasuredArea, measuredArea } from '../../src/core/geometry/measuredArea.ts';
import type { PlotFrame } from '../../src/core/geometry/plotFrame.ts';
import { type PhotoPoint, photoPoint, type Quadrilateral } from '../../src/core/geometry/points.ts';
import type { CallCounts } from '../../src/core/point-grid/callCounts.ts';
import { estimateTransectCover } from '../../src/core/point-grid/clusteredEstimate.ts';
import { estimateFrameCover } from '../../src/core/point-grid/pointEstimate.ts';
import { currentPoints, placePoints, plotToPhoto } from '../../src/core/point-grid/pointSet.ts';
import type { SamplingDesign } from '../../src/core/point-grid/samplingDesign.ts';
import type { LabelMask } from '../../src/core/raster/labelMask.ts';
import { DEFAULT_CLASSES } from '../../src/core/trial/defaultClasses.ts';
import { type Random, repeatableRandom, seedFor } from '../../src/core/trial/repeatableRandom.ts';
import {
  type AdjustmentSimulations,
  adjustmentSimulationsTable,
  measureAdjustments,
} from './adjustmentSimulations.ts';
import type { TargetRow } from './targets.ts';

/**
 * Coverage of the 95 % interval of one class over true covers of 2 to 60 %, simple random points. In percent.
 */
export interface RandomPointCoverage {
  readonly points: number;
  readonly meanSimulated: number;
  readonly leastSimulated: number;
  readonly leastAtPercent: number;
  /** The same, summed over all possible counts instead of drawn. */
  readonly meanExact: number;
  readonly leastExact: number;
}

/** What a design does on the true masks of the sample photos, classes with 2 to 60 % cover. */
export interface DesignCoverage {
  readonly design: string;
  readonly cases: number;
  readonly meanPoints: number;
  /**
   * Percent of the intervals that hold the true cover; lines are taken as clusters, other points as
   * independent.
   */
  readonly coverage: number;
  /** Least coverage of any one case. */
  readonly least: number;
  /** Both if all points were taken as independent; the same for designs without lines. */
  readonly coverageIndependent: number;
  readonly leastIndependent: number;
  /**
   * Variance of the cover over that of as many independent points: below 1 the design is better than its
   * formula.
   */
  readonly varianceRatio: number;
}

/**
 * Cover adjusted at 400 points against the cover of the automatic mask, one case for each photo and class.
 */
export interface AdjustedAgainstMask {
  readonly photos: number;
  readonly points: number;
  /** Cases in which the mask is off by 2 points or more. */
  readonly cases: number;
  readonly meanMaskError: number;
  readonly meanAdjustedError: number;
  readonly meanPointError: number;
  /** Percent of draws with a smaller error than the mask's. */
  readonly better: number;
  /** The same by photo: mean over classes of the absolute error, photos with 2 points or more. */
  readonly photoCases: number;
  readonly photoBetter: number;
  /** Percent of all adjusted intervals that hold the true cover. */
  readonly coverage: number;
  /** Percent of draws refused for too few points. */
  readonly refused: number;
}

export interface PointSimulations {
  readonly randomPoints: readonly RandomPointCoverage[];
  readonly designs: readonly DesignCoverage[];
  readonly adjusted: AdjustedAgainstMask;
  readonly treatments: AdjustmentSimulations;
}

interface Scene {
  readonly name: string;
  readonly frame: PlotFrame;
  readonly area: MeasuredArea;
  readonly truth: LabelMask;
  readonly cover: readonly number[];
  readonly sample: SamplePhoto;
}

interface SamplePhoto {
  readonly photo: string;
  readonly truth: string;
  readonly frame: readonly (readonly [number, number])[];
  readonly frameSizeMm: readonly [number, number];
  readonly greyCard: readonly [number, number, number, number] | null;
  readonly greyCardCorners: readonly (readonly [number, number])[] | null;
}

const CONFIDENCE = 0.95;
const CLASS_IDS = DEFAULT_CLASSES.map(({ id }) => id);
const sampleFolder = fileURLToPath(new URL('../../sample-images/', import.meta.url));

/** Simulations of point counts: seeded, through the functions that the screens use. */
export async function measurePointSimulations(): Promise<PointSimulations> {
  const { photos } = JSON.parse(await readFile(`${sampleFolder}photos.json`, 'utf8')) as {
    photos: SamplePhoto[];
  };
  const scenes: Scene[] = [];
  for (const sample of photos) scenes.push(await readScene(sample));
  return {
    randomPoints: [50, 100, 200, 400].map(randomPointCoverage),
    designs: DESIGNS.map(([name, design]) => designCoverage(name, design, scenes)),
    adjusted: await adjustedAgainstMask(scenes),
    treatments: measureAdjustments(),
  };
}

const DESIGNS: readonly (readonly [string, SamplingDesign])[] = [
  ['simple random, 100', { kind: 'simple-random', points: 100 }],
  ['grid 10 x 10', { kind: 'regular-grid', columns: 10, rows: 10 }],
  ['grid 20 x 20', { kind: 'regular-grid', columns: 20, rows: 20 }],
  ['jittered grid 10 x 10', { kind: 'jittered-grid', columns: 10, rows: 10 }],
  ['10 lines of 10', { kind: 'transect-lines', lines: 10, pointsPerLine: 10, direction: 'across' }],
  ['5 lines of 20', { kind: 'transect-lines', lines: 5, pointsPerLine: 20, direction: 'across' }],
];

const COVERS = Array.from({ length: 59 }, (_, i) => (2 + i) / 100);
const DRAWS = 4000;

function randomPointCoverage(points: number): RandomPointCoverage {
  const random = repeatableRandom(points);
  const intervals = Array.from(
    { length: points + 1 },
    (_, hits) => estimateFrameCover(countsOf([hits, points - hits]), CONFIDENCE).classes[0]!.interval!,
  );
  const holds = (hits: number, cover: number) =>
    intervals[hits]!.low <= cover && cover <= intervals[hits]!.high;
  const simulated = COVERS.map((cover) => {
    let held = 0;
    for (let draw = 0; draw < DRAWS; draw += 1) if (holds(drawHits(cover, points, random), cover)) held += 1;
    return (100 * held) / DRAWS;
  });
  const exact = COVERS.map((cover) => {
    let chance = (1 - cover) ** points;
    let held = 0;
    for (let hits = 0; hits <= points; hits += 1) {
      if (holds(hits, cover)) held += chance;
      chance *= ((points - hits) / (hits + 1)) * (cover / (1 - cover));
    }
    return 100 * held;
  });
  const least = Math.min(...simulated);
  return {
    points,
    meanSimulated: mean(simulated),
    leastSimulated: least,
    leastAtPercent: Math.round(100 * COVERS[simulated.indexOf(least)]!),
    meanExact: mean(exact),
    leastExact: Math.min(...exact),
  };
}

const DESIGN_DRAWS = 200;

function designCoverage(name: string, design: SamplingDesign, scenes: readonly Scene[]): DesignCoverage {
  const coverages: number[] = [];
  const independent: number[] = [];
  const ratios: number[] = [];
  const sizes: number[] = [];
  for (const scene of scenes) {
    const held = CLASS_IDS.map(() => 0);
    const heldIndependent = CLASS_IDS.map(() => 0);
    const covers = CLASS_IDS.map((): number[] => []);
    for (let draw = 0; draw < DESIGN_DRAWS; draw += 1) {
      const lines = new Map<number | null, number[]>();
      for (const { at, line } of drawPoints(scene, design, seedFor(draw, name, scene.name))) {
        const hits = lines.get(line) ?? CLASS_IDS.map(() => 0);
        lines.set(line, hits);
        hits[labelAt(scene.truth, at) - 1]! += 1;
      }
      const counts = [...lines.values()].map(countsOf);
      const { classes, points } =
        counts.length > 1
          ? estimateTransectCover(counts, CONFIDENCE)
          : estimateFrameCover(counts[0]!, CONFIDENCE);
      const total = CLASS_IDS.map((_, j) => counts.reduce((sum, { hits }) => sum + hits[j]!, 0));
      const plain = estimateFrameCover(countsOf(total), CONFIDENCE).classes;
      sizes.push(points);
      classes.forEach(({ interval, coverFraction }, j) => {
        const truth = scene.cover[j]!;
        covers[j]!.push(coverFraction!);
        if (interval!.low <= truth && truth <= interval!.high) held[j]! += 1;
        const { low, high } = plain[j]!.interval!;
        if (low <= truth && truth <= high) heldIndependent[j]! += 1;
      });
    }
    scene.cover.forEach((truth, j) => {
      if (truth < 0.02 || truth > 0.6) return;
      coverages.push((100 * held[j]!) / DESIGN_DRAWS);
      independent.push((100 * heldIndependent[j]!) / DESIGN_DRAWS);
      const spread = mean(covers[j]!.map((cover) => (cover - truth) ** 2));
      ratios.push((spread * mean(sizes.slice(-DESIGN_DRAWS))) / (truth * (1 - truth)));
    });
  }
  return {
    design: name,
    cases: coverages.length,
    meanPoints: mean(sizes),
    coverage: mean(coverages),
    least: Math.min(...coverages),
    coverageIndependent: mean(independent),
    leastIndependent: Math.min(...independent),
    varianceRatio: mean(ratios),
  };
}

const ADJUSTED_POINTS = 400;
const ADJUSTED_DRAWS = 50;

async function adjustedAgainstMask(scenes: readonly Scene[]): Promise<AdjustedAgainstMask> {
  const design: SamplingDesign = { kind: 'simple-random', points: ADJUSTED_POINTS };
  const errors: { readonly mask: number; readonly adjusted: number; readonly points: number }[] = [];
  const photoErrors: { readonly mask: number; readonly adjusted: number }[] = [];
  let [held, intervals, refused, cases, photoCases] = [0, 0, 0, 0, 0];
  for (const scene of scenes) {
    const mask = await startMask(scene);
    const mapped = coverOfMask(mask, scene.area, CLASS_IDS.length)!.map(({ coverFraction }) => coverFraction);
    const off = mapped.map((share, j) => 100 * Math.abs(share - scene.cover[j]!));
    cases += off.filter((error) => error >= 2).length;
    if (mean(off) >= 2) photoCases += 1;
    for (let draw = 0; draw < ADJUSTED_DRAWS; draw += 1) {
      const points = drawPoints(scene, design, seedFor(draw, 'adjusted', scene.name)).map(
        ({ at }): CheckedPoint => ({
          maskLabel: labelAt(mask, at),
          classId: CLASS_IDS[labelAt(scene.truth, at) - 1]!,
        }),
      );
      const { counts } = errorMatrix(points, CLASS_IDS);
      const adjustment = adjustPhotoCover(counts, mapped, CLASS_IDS, CONFIDENCE);
      if (!adjustment.ok) {
        refused += 1;
        continue;
      }
      const adjustedOff = adjustment.classes.map(
        ({ coverFraction }, j) => 100 * Math.abs(coverFraction - scene.cover[j]!),
      );
      adjustment.classes.forEach(({ interval }, j) => {
        intervals += 1;
        if (interval.low <= scene.cover[j]! && scene.cover[j]! <= interval.high) held += 1;
        if (off[j]! < 2) return;
        const counted = counts.reduce((sum, row) => sum + row[j]!, 0) / points.length;
        errors.push({
          mask: off[j]!,
          adjusted: adjustedOff[j]!,
          points: 100 * Math.abs(counted - scene.cover[j]!),
        });
      });
      if (mean(off) >= 2) photoErrors.push({ mask: mean(off), adjusted: mean(adjustedOff) });
    }
  }
  const betterShare = (all: readonly { readonly mask: number; readonly adjusted: number }[]) =>
    (100 * all.filter(({ mask, adjusted }) => adjusted < mask).length) / all.length;
  return {
    photos: scenes.length,
    points: ADJUSTED_POINTS,
    cases,
    meanMaskError: mean(errors.map(({ mask }) => mask)),
    meanAdjustedError: mean(errors.map(({ adjusted }) => adjusted)),
    meanPointError: mean(errors.map(({ points }) => points)),
    better: betterShare(errors),
    photoCases,
    photoBetter: betterShare(photoErrors),
    coverage: (100 * held) / intervals,
    refused: (100 * refused) / (scenes.length * ADJUSTED_DRAWS),
  };
}

/** The simulations beside the bars they are held to. */
export function pointSimulationRows({ randomPoints, designs, adjusted }: PointSimulations): TargetRow[] {
  const farthest = Math.max(...randomPoints.map(({ meanSimulated }) => Math.abs(meanSimulated - 95)));
  const least = Math.min(...randomPoints.map(({ leastSimulated }) => leastSimulated));
  const grids = Math.min(
    ...designs.filter(({ design }) => design.includes('grid')).map(({ coverage }) => coverage),
  );
  const row = (what: string, value: number, must: number, goal: number | null, smallerIsBetter: boolean) => ({
    what,
    value,
    unit: '%',
    must,
    goal,
    smallerIsBetter,
  });
  return [
    row('random points: mean coverage, distance from 95', farthest, 1, 0.5, true),
    row('random points: coverage at any one cover', least, 90, 92, false),
    row('grids on the true masks: coverage', grids, 93, null, false),
    row('adjusted nearer than a mask off by 2 points or more', adjusted.better, 80, 90, false),
  ];
}

/** The simulations as a table for people. */
export function pointSimulationsTable(result: PointSimulations): string {
  const { randomPoints, designs, adjusted, treatments } = result;
  const percent = (value: number) => value.toFixed(1).padStart(7);
  return [
    'Simple random points, true cover 2 to 60 %: coverage of the 95 % interval',
    '  points  mean simulated  least (at cover)  mean exact  least exact',
    ...randomPoints.map(
      (row) =>
        `  ${String(row.points).padStart(6)}  ${percent(row.meanSimulated)}         ${percent(row.leastSimulated)} (${row.leastAtPercent} %)   ${percent(row.meanExact)}     ${percent(row.leastExact)}`,
    ),
    '',
    'Designs on the true masks of the sample photos, classes of 2 to 60 %',
    `  ${'design'.padEnd(24)}  cases  points  coverage   least  (all independent)  variance / independent points`,
    ...designs.map(
      (row) =>
        `  ${row.design.padEnd(24)} ${String(row.cases).padStart(6)} ${percent(row.meanPoints)}   ${percent(row.coverage)} ${percent(row.least)}  ${percent(row.coverageIndependent)} ${percent(row.leastIndependent)}    ${row.varianceRatio.toFixed(2).padStart(6)}`,
    ),
    '',
    `Adjusted cover of single photos (${adjusted.points} random points on ${adjusted.photos} sample photos) against the start model's mask`,
    `  classes off by 2 points or more: ${adjusted.cases}; adjusted nearer the truth in ${adjusted.better.toFixed(1)} % of draws`,
    `  mean error there: mask ${adjusted.meanMaskError.toFixed(2)}, adjusted ${adjusted.meanAdjustedError.toFixed(2)}, points alone ${adjusted.meanPointError.toFixed(2)} points`,
    `  photos off by 2 points or more (mean of classes): ${adjusted.photoCases}; adjusted nearer in ${adjusted.photoBetter.toFixed(1)} %`,
    `  coverage of the adjusted interval, all photos and classes: ${adjusted.coverage.toFixed(1)} %; refused ${adjusted.refused.toFixed(1)} %`,
    '',
    adjustmentSimulationsTable(treatments),
  ].join('\n');
}

const countsOf = (hits: readonly number[]): CallCounts => ({
  hits,
  indeterminate: 0,
  unlabelled: 0,
  outside: 0,
});

function drawHits(cover: number, points: number, random: Random): number {
  let hits = 0;
  for (let i = 0; i < points; i += 1) if (random() < cover) hits += 1;
  return hits;
}

function drawPoints(
  { frame, area }: Scene,
  design: SamplingDesign,
  seed: number,
): { readonly at: PhotoPoint; readonly line: number | null }[] {
  const placing = placePoints(design, frame, area, seed);
  if (!placing.ok) throw new Error('a sample photo measures nothing');
  const toPhoto = plotToPhoto(placing.set.extent, frame.corners);
  return currentPoints(placing.set).map(({ at, line }) => ({
    at: mapPoint<'plot', 'photo'>(toPhoto, at),
    line,
  }));
}

const labelAt = ({ widthPx, labels }: LabelMask, [x, y]: PhotoPoint): number =>
  labels[Math.floor(y) * widthPx + Math.floor(x)]!;

async function readScene(sample: SamplePhoto): Promise<Scene> {
  const { data, info } = await sharp(sampleFolder + sample.truth)
    .extractChannel(0)
    .raw()
    .toBuffer({ resolveWithObject: true });
  const truth = { widthPx: info.width, heightPx: info.height, labels: new Uint8Array(data) };
  const corners = sample.frame.map(([x, y]) => photoPoint(x, y)) as unknown as Quadrilateral<'photo'>;
  const frame: PlotFrame = { corners, sizeMm: sample.frameSizeMm };
  const ignored = sample.greyCardCorners ? [sample.greyCardCorners.map(([x, y]) => photoPoint(x, y))] : [];
  const whole = measuredArea(info.width, info.height, { frame, ignored });
  // pixels that the truth does not know (edges of frame and card) have no part in it
  const inside = whole.inside.map((value, i) => (truth.labels[i] === 0 ? 0 : value));
  const area = { ...whole, inside, measuredPixels: inside.reduce((sum, value) => sum + value, 0) };
  const cover = coverOfMask(truth, area, CLASS_IDS.length)!.map(({ coverFraction }) => coverFraction);
  return { name: sample.photo, frame, area, truth, cover, sample };
}

async function startMask({ sample, area }: Scene): Promise<LabelMask> {
  const { data, info } = await sharp(sampleFolder + sample.photo)
    .rotate()
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const raster = { widthPx: info.width, heightPx: info.height, data: new Uint8ClampedArray(data) };
  const gains = sample.greyCard ? neutralGains(raster, sample.greyCard) : null;
  const { mask } = await classifyWithStartModel({
    raster,
    area,
    classes: DEFAULT_CLASSES,
    neutralGains: gains,
  });
  return mask;
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
