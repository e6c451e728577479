import type { LabelMask } from './labelMask.ts';

/** A mask coarser than its photo: each of its pixels stands for a square of photo pixels. */
export interface PlacedMask {
  readonly mask: LabelMask;
  /** Photo pixel at the top left corner of the mask. */
  readonly leftPx: number;
  readonly topPx: number;
  /** Side of a mask pixel in photo pixels. */
  readonly cellPx: number;
}
