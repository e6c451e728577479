import type { MeasuredArea } from '../geometry/measuredArea.ts';
import type { LabelMask } from '../raster/labelMask.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import type { CoverClass } from '../trial/coverClass.ts';
import type { GapRule } from '../trial/trial.ts';

/** Codes that travel with a figure; docs/files.md explains each. */
export type CoverFlag =
  | 'no-second-kind' // one kind of grass only: the photo gives no ground for splitting dark from light
  | 'no-vegetation'
  | 'no-ground'
  | 'seedling-stand' // vegetation too pale to tell dark from light
  | 'unlike-training' // the photo lies outside what the model was taught on
  | 'uncertain' // many pixels lie between classes
  | 'class-without-strokes'
  | 'model-of-other-classes' // the taught model chosen for the photo knows other classes: the start model measured
  | 'too-few-pixels'
  | 'no-colour'
  | 'gap-rule-needs-scale' // the trial's rule for gaps is in mm and the photo has no scale: every pixel counts
  | 'neutral-unusable'; // the neutral reference is clipped, too dark or outside the photo: colours were taken as they are

export interface ClassifyRequest {
  readonly raster: RgbaRaster;
  readonly area: MeasuredArea;
  /** Labels 1.. follow this order. */
  readonly classes: readonly CoverClass[];
  /** Factors for linear red, green and blue that make the neutral reference grey; null without one. */
  readonly neutralGains: readonly [number, number, number] | null;
  /** What becomes of small gaps. @default every pixel counts */
  readonly gapRule?: GapRule | undefined;
}

/** What a classifier says of one photo. */
export interface Classification {
  readonly mask: LabelMask;
  /**
   * Share of measured ground area a class, 0..1, in class order, adding up to 1.
   * The mask's ground-weighted shares equal these to 0.0001.
   */
  readonly coverFraction: readonly number[];
  readonly flags: readonly CoverFlag[];
}

/**
 * Called between strips. A worker uses it to look for a cancel message (throw to stop) and to report progress.
 * Strips of any height give the same bytes.
 */
export type BetweenStrips = (doneFraction: number) => Promise<void> | void;

export interface ClassifyOptions {
  /** Rows handled at once. @default 256 */
  readonly stripRows?: number;
  readonly betweenStrips?: BetweenStrips;
}
