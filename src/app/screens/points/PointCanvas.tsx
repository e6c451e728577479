import { useLayoutEffect, useRef } from 'react';
import type { PhotoPoint } from '../../../core/geometry/points.ts';
import type { Surface } from '../../canvas/useSurface.ts';
import styles from './CallingView.module.css';

/** The ring is never tighter than this, and never touches the pixel that is called. */
const LEAST_RING_PX = 11;
const RING_GAP_PX = 5;
const TICK_PX = 12;

interface PointCanvasProps {
  /** The whole photo, decoded once. */
  readonly picture: ImageBitmap;
  /** The pixel (floor x, floor y) is called: it lies in the middle. */
  readonly at: PhotoPoint;
  /** CSS pixels to a photo pixel. */
  readonly scale: number;
  readonly surface: Surface;
}

/** The photo round one point, drawn in the same task as the gesture that asked for it. */
export function PointCanvas({ picture, at: [x, y], scale, surface }: PointCanvasProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const width = Math.round(surface.width * surface.pixelRatio);
  const height = Math.round(surface.height * surface.pixelRatio);
  const deviceScale = scale * surface.pixelRatio;
  useLayoutEffect(() => {
    const element = canvas.current!;
    if (element.width !== width) element.width = width;
    if (element.height !== height) element.height = height;
    const context = element.getContext('2d', { alpha: false })!;
    context.fillStyle = '#6b6f6c';
    context.fillRect(0, 0, width, height);
    // leaves are told by their shape, which squares of single pixels hide
    context.imageSmoothingEnabled = true;
    context.imageSmoothingQuality = deviceScale < 1 ? 'medium' : 'low';
    const [left, top] = [
      Math.floor(x) + 0.5 - width / 2 / deviceScale,
      Math.floor(y) + 0.5 - height / 2 / deviceScale,
    ];
    // only the piece in sight is touched, however large the photo is
    const [fromX, fromY] = [Math.max(0, Math.floor(left)), Math.max(0, Math.floor(top))];
    const toX = Math.min(picture.width, Math.ceil(left + width / deviceScale));
    const toY = Math.min(picture.height, Math.ceil(top + height / deviceScale));
    if (toX <= fromX || toY <= fromY) return;
    context.drawImage(
      picture,
      fromX,
      fromY,
      toX - fromX,
      toY - fromY,
      (fromX - left) * deviceScale,
      (fromY - top) * deviceScale,
      (toX - fromX) * deviceScale,
      (toY - fromY) * deviceScale,
    );
  }, [picture, x, y, deviceScale, width, height]);
  return <canvas ref={canvas} className={styles.canvas} />;
}

/** A ring with four ticks: light with a dark rim, so that it shows on any ground; its middle stays free. */
export function PointMark({ surface, scale }: { readonly surface: Surface; readonly scale: number }) {
  const [x, y] = [surface.width / 2, surface.height / 2];
  const radius = Math.max(LEAST_RING_PX, scale * Math.SQRT1_2 + RING_GAP_PX);
  const out = radius + TICK_PX;
  const path = [
    `M${x + radius} ${y}A${radius} ${radius} 0 1 1 ${x - radius} ${y}A${radius} ${radius} 0 1 1 ${x + radius} ${y}`,
    `M${x + radius} ${y}H${x + out}M${x - radius} ${y}H${x - out}`,
    `M${x} ${y + radius}V${y + out}M${x} ${y - radius}V${y - out}`,
  ].join('');
  return (
    <svg className={styles.mark} aria-hidden="true">
      <path className={styles.rim} d={path} />
      <path className={styles.line} d={path} />
    </svg>
  );
}
