import { useEffect, useRef } from 'react';
import type { PixelBox } from '../../core/geometry/pixelBox.ts';
import { boxOfPhoto, boxRound } from '../../core/geometry/pixelBox.ts';
import { screenPoint } from '../../core/geometry/points.ts';
import type { LabelMask } from '../../core/raster/labelMask.ts';
import styles from './PhotoStage.module.css';
import { type MaskStyle, paintMask } from './paintMask.ts';
import type { Surface } from './useSurface.ts';
import { inDevicePixels, type View } from './view.ts';

interface LiveMaskLayerProps {
  readonly surface: Surface;
  readonly view: View;
  /** Changed in place while it is edited. */
  readonly mask: LabelMask;
  readonly style: MaskStyle;
  /** 0..1 */
  readonly opacity: number;
  /** Calls back with every box of the mask that was changed. @returns the way to stop */
  readonly onPainted: (listener: (box: PixelBox) => void) => () => void;
}

/** Outlines and patterns of a pixel depend on its neighbours, so a little more than what changed is drawn. */
const RIM_PX = 2;

/** A mask while it is edited: of each change only the rectangle it touched is drawn again, once a frame at most. */
export function LiveMaskLayer({ surface, view, mask, style, opacity, onPainted }: LiveMaskLayerProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const { pixelRatio } = surface;
  const width = Math.round(surface.width * pixelRatio);
  const height = Math.round(surface.height * pixelRatio);
  useEffect(() => {
    const element = canvas.current!;
    const device = inDevicePixels(view, pixelRatio);
    let dirty: PixelBox | null = null;
    let frame: number | null = null;
    let isFirst = true;
    const draw = () => {
      frame = null;
      const context = element.getContext('2d')!;
      const box = dirty!;
      dirty = null;
      // setting a size clears the canvas, so it is set together with the drawing
      if (element.width !== width) element.width = width;
      if (element.height !== height) element.height = height;
      // what another view left beside the photo
      if (isFirst) context.clearRect(0, 0, width, height);
      isFirst = false;
      const [x, y] = device.origin;
      const left = Math.max(0, Math.floor(x + box.left * device.scale) - RIM_PX);
      const top = Math.max(0, Math.floor(y + box.top * device.scale) - RIM_PX);
      const right = Math.min(width, Math.ceil(x + box.right * device.scale) + RIM_PX);
      const bottom = Math.min(height, Math.ceil(y + box.bottom * device.scale) + RIM_PX);
      if (left >= right || top >= bottom) return;
      const picture = new ImageData(right - left, bottom - top);
      const part = { scale: device.scale, origin: screenPoint(x - left, y - top) };
      paintMask(mask, part, style, new Uint32Array(picture.data.buffer), picture.width, pixelRatio);
      // neighbours beyond the rectangle were not looked at, so its own rim is left as it was
      const [cutLeft, cutTop] = [left > 0 ? 1 : 0, top > 0 ? 1 : 0];
      const cutRight = right < width ? 1 : 0;
      const cutBottom = bottom < height ? 1 : 0;
      context.putImageData(
        picture,
        left,
        top,
        cutLeft,
        cutTop,
        picture.width - cutLeft - cutRight,
        picture.height - cutTop - cutBottom,
      );
    };
    const request = (box: PixelBox) => {
      dirty = boxRound(dirty, box);
      frame ??= requestAnimationFrame(draw);
    };
    const stop = onPainted(request);
    request(boxOfPhoto(mask));
    return () => {
      stop();
      if (frame !== null) cancelAnimationFrame(frame);
    };
  }, [view, pixelRatio, width, height, mask, style, onPainted]);
  return <canvas ref={canvas} className={styles.layer} style={{ opacity }} />;
}
