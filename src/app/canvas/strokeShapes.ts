import type { PhotoPoint } from '../../core/geometry/points.ts';
import type { CoverClass } from '../../core/trial/coverClass.ts';
import { inkOn } from './colours.ts';
import { photoToScreen, type View } from './view.ts';

/** A line painted on a photo with a round brush. */
export interface StrokeShape {
  readonly classId: string;
  readonly radiusPx: number;
  readonly points: readonly PhotoPoint[];
}

/** A stroke is drawn at least this wide, in CSS pixels, so that a dot on a large photo can be seen. */
const LEAST_WIDTH_PX = 5;
const LETTER_PX = 11;

/**
 * Draws strokes: the class's colour between dark lines, its letter where the stroke begins.
 *
 * @param view in device pixels of the canvas
 * @param fading those that would be erased are drawn as an outline
 */
export function drawStrokes(
  context: CanvasRenderingContext2D,
  strokes: readonly StrokeShape[],
  classes: readonly CoverClass[],
  view: View,
  pixelRatio: number,
  fading: ReadonlySet<StrokeShape>,
): void {
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.clearRect(0, 0, context.canvas.width, context.canvas.height);
  context.lineCap = 'round';
  context.lineJoin = 'round';
  for (const stroke of strokes) {
    const coverClass = classes.find(({ id }) => id === stroke.classId);
    if (!coverClass) continue;
    const { colour, key } = coverClass;
    const width = Math.max(LEAST_WIDTH_PX * pixelRatio, 2 * stroke.radiusPx * view.scale);
    const line = () => {
      context.beginPath();
      stroke.points.forEach((point, index) => {
        const [x, y] = photoToScreen(view, point);
        if (index === 0) context.moveTo(x, y);
        context.lineTo(x, y);
      });
      context.stroke();
    };
    context.globalAlpha = fading.has(stroke) ? 0.35 : 1;
    context.strokeStyle = '#0c0e0d';
    context.lineWidth = width + 3 * pixelRatio;
    line();
    context.strokeStyle = colour;
    context.lineWidth = width;
    line();
    const [x, y] = photoToScreen(view, stroke.points[0]!);
    context.font = `600 ${LETTER_PX * pixelRatio}px system-ui, sans-serif`;
    context.textAlign = 'center';
    context.textBaseline = 'middle';
    if (width < (LETTER_PX + 3) * pixelRatio) {
      context.fillStyle = '#0c0e0d';
      context.beginPath();
      context.arc(x, y, (LETTER_PX * 0.8 + 1) * pixelRatio, 0, 2 * Math.PI);
      context.fill();
      context.fillStyle = colour;
      context.beginPath();
      context.arc(x, y, LETTER_PX * 0.8 * pixelRatio, 0, 2 * Math.PI);
      context.fill();
    }
    context.fillStyle = inkOn(colour);
    context.fillText(key, x, y + 0.5 * pixelRatio);
  }
  context.globalAlpha = 1;
}

/** Whether a brush at a place touches a stroke. */
export function touches({ points, radiusPx }: StrokeShape, [x, y]: PhotoPoint, brushPx: number): boolean {
  const reach = (radiusPx + brushPx) ** 2;
  return points.some(([bx, by], i) => {
    const [ax, ay] = points[Math.max(0, i - 1)]!;
    const [dx, dy] = [bx - ax, by - ay];
    const square = dx * dx + dy * dy;
    const along = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / square));
    return (x - ax - along * dx) ** 2 + (y - ay - along * dy) ** 2 <= reach;
  });
}

/** Leaves out points nearer to the last than this part of the radius: a slow hand gives thousands. */
const SPACING = 0.3;

/** Points of a stroke with those added that lie far enough apart. */
export function withPoints(
  points: readonly PhotoPoint[],
  more: readonly PhotoPoint[],
  radiusPx: number,
): readonly PhotoPoint[] {
  const next = [...points];
  const least = Math.max(0.5, radiusPx * SPACING) ** 2;
  for (const point of more) {
    const last = next.at(-1);
    if (!last || (point[0] - last[0]) ** 2 + (point[1] - last[1]) ** 2 >= least) next.push(point);
  }
  return next.length === points.length ? points : next;
}
