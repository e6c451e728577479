import { inlinePictures } from './inlinePictures.ts';
import { onPaper } from './paint.ts';
import { withResolution } from './pngResolution.ts';

export interface ExportOptions {
  readonly format: 'svg' | 'png';
  /** Decides how many dots a PNG has; the drawing itself was made for the size. */
  readonly size: 'print' | 'slide';
}

/** Dots for each pixel of the drawing, and dots an inch that the file says of itself. */
const DOTS = {
  print: { scale: 300 / 96, perInch: 300 },
  slide: { scale: 2, perInch: 192 },
} as const;

/**
 * A file of a drawing that stands for itself: colours for white paper, pictures inside, nothing fetched.
 *
 * @param svg as drawn by `FigureSheet`, in the document or not
 * @throws Error when a picture cannot be read or the browser cannot make so large a canvas
 */
export async function exportFigure(svg: SVGSVGElement, options: ExportOptions): Promise<Blob> {
  const own = svg.cloneNode(true) as SVGSVGElement;
  await inlinePictures(own);
  const markup = onPaper(new XMLSerializer().serializeToString(own));
  const file = new Blob(['<?xml version="1.0" encoding="UTF-8"?>\n', markup], { type: 'image/svg+xml' });
  if (options.format === 'svg') return file;
  const { scale, perInch } = DOTS[options.size];
  const box = own.viewBox.baseVal;
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(box.width * scale);
  canvas.height = Math.round(box.height * scale);
  const context = canvas.getContext('2d');
  if (!context) throw new Error(`no canvas of ${canvas.width} x ${canvas.height} pixels`);
  const url = URL.createObjectURL(file);
  try {
    const picture = new Image(canvas.width, canvas.height);
    picture.src = url;
    await picture.decode();
    context.fillStyle = '#ffffff';
    context.fillRect(0, 0, canvas.width, canvas.height);
    context.drawImage(picture, 0, 0, canvas.width, canvas.height);
  } finally {
    URL.revokeObjectURL(url);
  }
  const png = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
  if (!png) throw new Error(`no PNG of ${canvas.width} x ${canvas.height} pixels`);
  const bytes = withResolution(new Uint8Array(await png.arrayBuffer()), perInch);
  return new Blob([bytes], { type: 'image/png' });
}
