import { useCallback } from 'react';
import type { PhotoPoint } from '../../core/geometry/points.ts';
import type { LabelMask } from '../../core/raster/labelMask.ts';
import { CanvasLayer } from './CanvasLayer.tsx';
import { drawPhoto } from './drawPhoto.ts';
import styles from './Loupe.module.css';
import { type MaskStyle, paintMask } from './paintMask.ts';
import type { PhotoLevels } from './photoLevels.ts';
import { centredOn, inDevicePixels, type View } from './view.ts';

const SIDE_PX = 144;
/** How much larger than the photo on the stage. */
const MAGNIFICATION = 4;

interface MagnifierProps {
  readonly photo: PhotoLevels;
  readonly mask: LabelMask | null;
  readonly style: MaskStyle;
  readonly view: View;
  /** What it shows the middle of. */
  readonly at: PhotoPoint;
  readonly pixelRatio: number;
  readonly side: 'left' | 'right';
}

/** The photo round a point enlarged, with the edges of the classes. */
export function Magnifier({ photo, mask, style, view, at, pixelRatio, side }: MagnifierProps) {
  const { scale } = view;
  const draw = useCallback(
    (context: CanvasRenderingContext2D) => {
      const near = inDevicePixels(
        centredOn(at, Math.max(scale * MAGNIFICATION, 2), { width: SIDE_PX, height: SIDE_PX }),
        pixelRatio,
      );
      drawPhoto(context, photo, near);
      const { width, height } = context.canvas;
      if (mask) {
        const picture = new ImageData(width, height);
        const edges = { ...style, fills: false, outlines: true };
        paintMask(mask, near, edges, new Uint32Array(picture.data.buffer), width, pixelRatio);
        const layer = new OffscreenCanvas(width, height);
        layer.getContext('2d')!.putImageData(picture, 0, 0);
        context.drawImage(layer, 0, 0);
      }
      // the middle
      context.beginPath();
      context.arc(width / 2, height / 2, 3 * pixelRatio, 0, 2 * Math.PI);
      for (const [colour, line] of [
        ['rgb(0 0 0 / 0.75)', 3],
        ['#fff', 1.5],
      ] as const) {
        context.strokeStyle = colour;
        context.lineWidth = line * pixelRatio;
        context.stroke();
      }
    },
    [photo, mask, style, scale, at, pixelRatio],
  );
  return (
    <div className={`${styles.loupe} ${styles[side]}`} aria-hidden="true">
      <CanvasLayer surface={{ width: SIDE_PX, height: SIDE_PX, pixelRatio }} draw={draw} />
    </div>
  );
}
