import { useEffect, useRef } from 'react';
import styles from './PhotoStage.module.css';
import type { Surface } from './useSurface.ts';

interface CanvasLayerProps {
  readonly surface: Surface;
  /** Draws the whole layer. A new function means a new picture; the others stay as they are. */
  readonly draw: (context: CanvasRenderingContext2D) => void;
  /** 0..1; changing it redraws nothing. @default 1 */
  readonly opacity?: number;
}

/** One of the canvases that lie on each other, drawn at the device's resolution once a frame at most. */
export function CanvasLayer({ surface, draw, opacity = 1 }: CanvasLayerProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const width = Math.round(surface.width * surface.pixelRatio);
  const height = Math.round(surface.height * surface.pixelRatio);
  useEffect(() => {
    const frame = requestAnimationFrame(() => {
      const element = canvas.current;
      // taken off the screen in this very frame
      if (!element) return;
      // setting a size clears the canvas, so it is set together with the drawing
      if (element.width !== width) element.width = width;
      if (element.height !== height) element.height = height;
      draw(element.getContext('2d')!);
    });
    return () => cancelAnimationFrame(frame);
  }, [draw, width, height]);
  return <canvas ref={canvas} className={styles.layer} style={{ opacity }} />;
}
