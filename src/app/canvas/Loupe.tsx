import { useCallback } from 'react';
import { type PhotoPoint, photoPoint, type Quadrilateral } from '../../core/geometry/points.ts';
import { CanvasLayer } from './CanvasLayer.tsx';
import { drawPhoto } from './drawPhoto.ts';
import styles from './Loupe.module.css';
import type { PhotoLevels } from './photoLevels.ts';
import { centredOn, inDevicePixels, photoToScreen, type View } from './view.ts';

const SIDE_PX = 144;
/** How much larger than the photo on the stage. */
const MAGNIFICATION = 4;

interface LoupeProps {
  readonly photo: PhotoLevels;
  readonly view: View;
  readonly corners: Quadrilateral<'photo'>;
  readonly at: PhotoPoint;
  readonly pixelRatio: number;
  /** Put on the side where the finger is not. */
  readonly side: 'left' | 'right';
}

/** The ground round a corner enlarged, since a finger hides what it moves. */
export function Loupe({ photo, view, corners, at, pixelRatio, side }: LoupeProps) {
  const [x, y] = at;
  const draw = useCallback(
    (context: CanvasRenderingContext2D) => {
      const size = { width: SIDE_PX, height: SIDE_PX };
      const near = inDevicePixels(
        centredOn(photoPoint(x, y), Math.max(view.scale * MAGNIFICATION, 2), size),
        pixelRatio,
      );
      drawPhoto(context, photo, near);
      context.beginPath();
      corners.forEach((corner, index) => {
        const [u, v] = photoToScreen(near, corner);
        if (index === 0) context.moveTo(u, v);
        else context.lineTo(u, v);
      });
      context.closePath();
      for (const [style, width] of [
        ['rgb(0 0 0 / 0.7)', 3],
        ['#fff', 1],
      ] as const) {
        context.strokeStyle = style;
        context.lineWidth = width * pixelRatio;
        context.stroke();
      }
    },
    [photo, view.scale, corners, x, y, pixelRatio],
  );
  return (
    <div className={`${styles.loupe} ${styles[side]}`} aria-hidden="true">
      <CanvasLayer surface={{ width: SIDE_PX, height: SIDE_PX, pixelRatio }} draw={draw} />
    </div>
  );
}
