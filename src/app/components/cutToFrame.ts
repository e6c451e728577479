import type { PhotoSummary } from '../session/session.ts';

/** The ground inside a photo's frame as a picture: drawn anew, so nothing that the file says of place or camera is in it. */
export interface CutPicture {
  readonly jpeg: Blob;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly millimetresPerPixel: number | null;
}

const LARGEST_PX = 1200;

/**
 * Cuts a photo to the rectangle round its frame; all of it where there is none.
 *
 * @throws Error where the browser cannot draw the photo
 */
export async function cutToFrame(
  bytes: ArrayBuffer,
  { frame, figure }: Pick<PhotoSummary, 'frame' | 'figure'>,
  largestPx = LARGEST_PX,
): Promise<CutPicture> {
  const bitmap = await createImageBitmap(new Blob([bytes]), { imageOrientation: 'from-image' });
  const xs = frame?.corners.map(([x]) => x) ?? [0, bitmap.width];
  const ys = frame?.corners.map(([, y]) => y) ?? [0, bitmap.height];
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  const [width, height] = [Math.max(...xs) - left, Math.max(...ys) - top];
  const scale = Math.min(1, largestPx / Math.max(width, height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(width * scale));
  canvas.height = Math.max(1, Math.round(height * scale));
  canvas.getContext('2d')!.drawImage(bitmap, left, top, width, height, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  const jpeg = await new Promise<Blob>((done, fail) =>
    canvas.toBlob((made) => (made ? done(made) : fail(new Error('no picture'))), 'image/jpeg', 0.9),
  );
  const millimetres = figure?.millimetresPerPixel ?? null;
  return {
    jpeg,
    widthPx: canvas.width,
    heightPx: canvas.height,
    millimetresPerPixel: millimetres === null ? null : millimetres / scale,
  };
}
