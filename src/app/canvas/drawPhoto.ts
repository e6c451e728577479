import { levelFor, type PhotoLevels } from './photoLevels.ts';
import type { View } from './view.ts';

/** Beyond this magnification the photo's own pixels are shown as they are. */
const PIXELS_FROM_SCALE = 2;

/**
 * Draws what a view shows of a photo.
 *
 * @param view in device pixels of the canvas
 */
export function drawPhoto(context: CanvasRenderingContext2D, photo: PhotoLevels, view: View): void {
  const { width, height } = context.canvas;
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.clearRect(0, 0, width, height);
  context.imageSmoothingEnabled = view.scale <= PIXELS_FROM_SCALE;
  context.imageSmoothingQuality = 'medium';
  const level = photo.levels[levelFor(photo.levels.length, view.scale)]!;
  const [x, y] = view.origin;
  context.drawImage(level, x, y, photo.width * view.scale, photo.height * view.scale);
}
