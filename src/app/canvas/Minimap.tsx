import { type PointerEvent, useCallback } from 'react';
import { photoPoint, screenPoint } from '../../core/geometry/points.ts';
import { CanvasLayer } from './CanvasLayer.tsx';
import { drawPhoto } from './drawPhoto.ts';
import styles from './Minimap.module.css';
import type { PhotoLevels } from './photoLevels.ts';
import type { Surface } from './useSurface.ts';
import { centredOn, fitView, inDevicePixels, screenToPhoto, type View } from './view.ts';

const LONGER_SIDE_PX = 132;

interface MinimapProps {
  readonly photo: PhotoLevels;
  readonly view: View;
  readonly surface: Surface;
  readonly title: string;
  readonly changeView: (step: (view: View) => View) => void;
}

/** The whole photo in small with the part that is in sight; for pointers, since keys move the photo itself. */
export function Minimap({ photo, view, surface, title, changeView }: MinimapProps) {
  const scale = LONGER_SIDE_PX / Math.max(photo.width, photo.height);
  const size = { width: Math.round(photo.width * scale), height: Math.round(photo.height * scale) };
  const { pixelRatio } = surface;
  const { width, height } = size;
  const draw = useCallback(
    (context: CanvasRenderingContext2D) =>
      drawPhoto(context, photo, inDevicePixels(fitView(photo, { width, height }), pixelRatio)),
    [photo, width, height, pixelRatio],
  );
  const topLeft = screenToPhoto(view, screenPoint(0, 0));
  const bottomRight = screenToPhoto(view, screenPoint(surface.width, surface.height));
  const within = (value: number, most: number) => Math.min(most, Math.max(0, value * scale));
  const [left, top] = [within(topLeft[0], width), within(topLeft[1], height)];
  const goTo = (event: PointerEvent<HTMLElement>) => {
    event.stopPropagation();
    if (event.buttons === 0) return;
    const box = event.currentTarget.getBoundingClientRect();
    const at = photoPoint((event.clientX - box.left) / scale, (event.clientY - box.top) / scale);
    changeView((last) => centredOn(at, last.scale, surface));
  };
  return (
    <div
      className={styles.map}
      style={size}
      title={title}
      aria-hidden="true"
      onPointerDown={goTo}
      onPointerMove={goTo}
      onPointerUp={(event) => event.stopPropagation()}
    >
      <CanvasLayer surface={{ ...size, pixelRatio }} draw={draw} />
      <span
        className={styles.sight}
        style={{
          left,
          top,
          width: within(bottomRight[0], width) - left,
          height: within(bottomRight[1], height) - top,
        }}
      />
    </div>
  );
}
