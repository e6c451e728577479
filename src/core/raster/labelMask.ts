/**
 * One class label a pixel of the upright photo.
 *
 * Row-major, index = y * widthPx + x. 0 is not measured (outside the frame, ignored, neutral reference);
 * 1.. are the classes of the run in their order.
 */
export interface LabelMask {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly labels: Uint8Array<ArrayBuffer>;
}

/** The label of a pixel that is not measured. */
export const NOT_MEASURED = 0;
