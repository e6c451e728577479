import type { BetweenStrips } from '../classifier/classification.ts';
import { radiusInCells } from '../classifier/radiusInCells.ts';
import type { MeasuredArea } from '../geometry/measuredArea.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import { type AnalysisGrid, analysisGridFor } from './analysisGrid.ts';
import { type BoxStep, chainedBoxMeans } from './chainedBoxMeans.ts';
import { labPlanes } from './labPlanes.ts';
import { levelGains } from './levelGains.ts';
import { localSpread } from './localSpread.ts';
import { LAB_UNIT } from './logLightness.ts';
import { boxCounts } from './maskedBoxMeans.ts';

/** Name and version of the set of features; a model taught on another set is refused. */
export const FEATURE_SET = 'lab-scales-1';

/** One unit of a feature (of L*, a* or b*) in the whole-number planes. */
export const FEATURE_UNIT = LAB_UNIT;

/** Radii of the neighbourhoods: a leaf, a tuft, a patch. In cells where the photo's scale is not known. */
const LEAF = { mm: 0.83, cells: 1 };
const TUFT = { mm: 3.3, cells: 4 };
const PATCH = { mm: 13.3, cells: 16 };

interface FeatureRecipe {
  readonly channel: 'lightness' | 'aStar' | 'bStar';
  readonly scale: { readonly mm: number; readonly cells: number };
  readonly what: 'mean' | 'spread';
}

/** The features in their order: by channel means of colour, finest first, and then how rough the lightness is. */
export const FEATURES: readonly FeatureRecipe[] = [
  { channel: 'lightness', scale: LEAF, what: 'mean' },
  { channel: 'lightness', scale: TUFT, what: 'mean' },
  { channel: 'aStar', scale: LEAF, what: 'mean' },
  { channel: 'aStar', scale: TUFT, what: 'mean' },
  { channel: 'aStar', scale: PATCH, what: 'mean' },
  { channel: 'bStar', scale: LEAF, what: 'mean' },
  { channel: 'bStar', scale: TUFT, what: 'mean' },
  { channel: 'bStar', scale: PATCH, what: 'mean' },
  { channel: 'lightness', scale: TUFT, what: 'spread' },
];

/** What a classifier sees of one photo: a whole number a cell and feature. It can be kept while the photo is open. */
export interface FeaturePlanes {
  readonly featureSet: typeof FEATURE_SET;
  readonly grid: AnalysisGrid;
  /** In the order of FEATURES, units of 1 / FEATURE_UNIT; row-major, index = row * grid.widthCells + column. */
  readonly planes: readonly Int16Array<ArrayBuffer>[];
  /** How many times brighter levelling made the photo. */
  readonly lightGain: number;
  /** Measured photo pixels in the cell; 0 where the cell does not count. */
  readonly measured: Uint8Array<ArrayBuffer>;
  /** Ground the measured pixels of the cell stand for. */
  readonly groundWeight: Int32Array<ArrayBuffer>;
}

export interface FeatureOptions {
  /** Factors for linear red, green and blue that make the neutral reference grey. */
  readonly neutralGains?: readonly [number, number, number] | null;
  /** Photo rows between two calls of `betweenStrips`. @default 256 */
  readonly stripRows?: number;
  readonly betweenStrips?: BetweenStrips | undefined;
}

/** Part of the work done once colours are known, for progress. */
const COLOUR_PART = 0.4;

/**
 * Features of the measured cells of a photo, after levelling its light.
 *
 * Means over leaves are boxes of boxes, means over tufts boxes of those, and so on, so that their edges are soft.
 * Cells outside the measured area have no part in any neighbourhood. The same photo gives the same bytes, whatever
 * `stripRows`.
 */
export async function extractFeatures(
  raster: RgbaRaster,
  area: MeasuredArea,
  options: FeatureOptions = {},
): Promise<FeaturePlanes> {
  const { neutralGains = null, stripRows = 256, betweenStrips } = options;
  const grid = analysisGridFor(area);
  const gains = levelGains(raster, area, neutralGains);
  const lab = await labPlanes(raster, area, grid, {
    neutralGains: gains,
    stripRows,
    betweenStrips: betweenStrips && ((done) => betweenStrips(done * COLOUR_PART)),
  });
  const region = { widthCells: grid.widthCells, heightCells: grid.heightCells, measured: lab.measured };
  const stepsByRadius = new Map<number, BoxStep>();
  const stepOf = ({ mm, cells }: FeatureRecipe['scale']): BoxStep => {
    const radius = radiusInCells(grid, mm, cells);
    const step = stepsByRadius.get(radius) ?? { radius, counts: boxCounts(region, radius) };
    stepsByRadius.set(radius, step);
    return step;
  };
  const planes: Int16Array<ArrayBuffer>[] = [];
  for (const channel of ['lightness', 'aStar', 'bStar'] as const) {
    await betweenStrips?.(COLOUR_PART + ((1 - COLOUR_PART) * planes.length) / FEATURES.length);
    const scales = FEATURES.filter((feature) => feature.channel === channel && feature.what === 'mean');
    // a patch is a mean of tufts, a tuft of leaves, a leaf of itself: each smooths the soft edge of the one before
    const steps = [LEAF, ...scales.map(({ scale }) => scale)].map(stepOf);
    planes.push(...chainedBoxMeans(lab[channel], region, steps).slice(1));
  }
  const { radius, counts } = stepOf(TUFT);
  planes.push(localSpread(lab.lightness, counts, grid.widthCells, grid.heightCells, radius));
  return {
    featureSet: FEATURE_SET,
    grid,
    planes,
    lightGain: luminanceOf(gains),
    measured: lab.measured,
    groundWeight: lab.groundWeight,
  };
}

/** @see IEC 61966-2-1 */
const luminanceOf = ([red, green, blue]: readonly [number, number, number]): number =>
  0.2126 * red + 0.7152 * green + 0.0722 * blue;
