import type { PlotFrame } from './plotFrame.ts';
import type { Quadrilateral } from './points.ts';

/** The frame at these corners: a frame that is not square may have been photographed lying or standing. */
export function frameOf(
  corners: Quadrilateral<'photo'>,
  sizeMm: readonly [widthMm: number, heightMm: number] | null,
): PlotFrame {
  if (!sizeMm) return { corners, sizeMm: null };
  const [a, b, c, d] = corners;
  const length = (p: typeof a, q: typeof a) => Math.hypot(q[0] - p[0], q[1] - p[1]);
  const lies = length(a, b) + length(d, c) > length(a, d) + length(b, c);
  const [width, height] = sizeMm;
  return { corners, sizeMm: width === height || lies === width > height ? sizeMm : [height, width] };
}
