import { useEffect, useRef } from 'react';
import { screenPoint } from '../../../core/geometry/points.ts';
import { paintMask } from '../../canvas/paintMask.ts';
import type { PhotoSummary } from '../../session/session.ts';
import { useSession } from '../../session/useSession.tsx';
import styles from './CompareScreen.module.css';

/** Wide enough to see the patches by, small enough that thousands are no burden. */
const WIDTH_PX = 240;

/** The mask of a photo, in small. */
export function MaskPicture({ photo }: { photo: PhotoSummary }) {
  const { id, figure } = photo;
  const session = useSession();
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    if (!figure) return;
    let left = false;
    session.mask(id).then(
      (mask) => {
        if (left || !mask || !canvas.current) return;
        const scale = WIDTH_PX / mask.widthPx;
        const heightPx = Math.max(1, Math.round(mask.heightPx * scale));
        const pixels = new Uint32Array(WIDTH_PX * heightPx);
        const { classes } = figure.settings;
        paintMask(
          mask,
          { origin: screenPoint(0, 0), scale },
          { classes, shown: new Set(classes.map((one) => one.id)), patterns: false, outlines: false },
          pixels,
          WIDTH_PX,
        );
        canvas.current.width = WIDTH_PX;
        canvas.current.height = heightPx;
        const image = new ImageData(new Uint8ClampedArray(pixels.buffer), WIDTH_PX, heightPx);
        canvas.current.getContext('2d')!.putImageData(image, 0, 0);
      },
      (error) => console.error(`no mask of photo ${id}`, error),
    );
    return () => {
      left = true;
    };
  }, [session, id, figure]);
  return <canvas ref={canvas} className={styles.place} />;
}
