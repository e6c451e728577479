import { type GreyPlane, type LabelPicture, type LabelView, labelPicture } from './labelPicture.ts';
import { parsePlotLabel } from './plotLabel.ts';

/** Longer side of the whole photo at the first looks: most labels are large enough in it, and it is quick. */
const FIRST_LOOK_PX = 2000;
/** Side of the parts of the looks at full size, and how far they overlap: a label lies whole in one of them. */
const PART_PX = 1600;
const OVERLAP_PX = 400;

/** The looks at a photo of this size, the quickest first. The views of each look cover the whole photo. */
export function labelLooks(widthPx: number, heightPx: number): LabelView[][] {
  const reduction = Math.ceil(Math.max(widthPx, heightPx) / FIRST_LOOK_PX);
  const whole = [{ left: 0, top: 0, widthPx, heightPx, reduction }];
  const sizes = reduction === 1 ? [whole] : [whole, partsOf(widthPx, heightPx)];
  return sizes.flatMap((views) =>
    (['even-light', 'as-seen'] as const).map((tone) => views.map((view) => ({ ...view, tone }))),
  );
}

const partsOf = (widthPx: number, heightPx: number) =>
  stretches(heightPx).flatMap(({ start: top, length: height }) =>
    stretches(widthPx).map(({ start: left, length: width }) => ({
      left,
      top,
      widthPx: width,
      heightPx: height,
      reduction: 1,
    })),
  );

/** Overlapping stretches, alike but for rounding, that cover a length. */
function stretches(lengthPx: number): { readonly start: number; readonly length: number }[] {
  const count = Math.max(1, Math.ceil((lengthPx - OVERLAP_PX) / (PART_PX - OVERLAP_PX)));
  const length = Math.ceil((lengthPx + (count - 1) * OVERLAP_PX) / count);
  return Array.from({ length: count }, (_, index) => {
    const start = Math.min(index * (length - OVERLAP_PX), lengthPx - length);
    return { start, length };
  });
}

/**
 * Looks for plot labels in a photo, first at reduced size, then in parts at full size, and stops after the first look that
 * finds one.
 *
 * @param readCodes the texts of all QR codes in a picture
 * @returns the texts of plot labels, of whatever trial, each once; codes of other makers are left out
 */
export async function searchPlotLabels(
  plane: GreyPlane,
  readCodes: (picture: LabelPicture, view: LabelView) => Promise<readonly string[]>,
): Promise<string[]> {
  for (const views of labelLooks(plane.widthPx, plane.heightPx)) {
    const found = new Set<string>();
    for (const view of views) {
      for (const text of await readCodes(labelPicture(plane, view), view))
        if (isPlotLabel(text)) found.add(text);
    }
    if (found.size > 0) return [...found];
  }
  return [];
}

/** Whether a text is a label of this project; a damaged one, or one of a newer version, is told to the person. */
function isPlotLabel(text: string): boolean {
  const reading = parsePlotLabel(text);
  return reading.ok || reading.problem.code !== 'not-a-label';
}
