import { useEffect, useMemo, useRef } from 'react';
import type { PlotFrame } from '../../core/geometry/plotFrame.ts';
import { photoPoint, type Quadrilateral, screenPoint } from '../../core/geometry/points.ts';
import { turnedCorners } from '../../core/geometry/turnedCorners.ts';
import type { LabelMask } from '../../core/raster/labelMask.ts';
import { area } from '../../core/text/area.ts';
import { type MaskStyle, paintMask } from './paintMask.ts';
import { levelFor, type PhotoLevels } from './photoLevels.ts';
import { aspectOf, ontoBox, projectiveTransform, scaleBarMm } from './projectiveTransform.ts';
import styles from './StraightView.module.css';
import { useSurface } from './useSurface.ts';

interface StraightViewProps {
  readonly label: string;
  readonly photo: PhotoLevels;
  readonly frame: PlotFrame;
  /** Quarters the frame is turned by, clockwise. @default 0 */
  readonly quarters?: number;
  readonly mask: LabelMask | null;
  readonly maskStyle: Omit<MaskStyle, 'outlines'>;
  readonly maskOpacity: number;
}

/** Room round the square, in CSS pixels. */
const MARGIN_PX = 16;
/** The scale bar takes at most this share of the width. */
const BAR_SHARE = 0.3;

/**
 * The ground inside the frame as seen from straight above, in true proportions. The browser bends the pictures itself, by
 * the frame's homography as a CSS transform; nothing is resampled here.
 */
export function StraightView(props: StraightViewProps) {
  const { label, photo, frame, quarters = 0, mask, maskStyle, maskOpacity } = props;
  const place = useRef<HTMLDivElement>(null);
  const surface = useSurface(place);
  const aspect = aspectOf(frame.corners, frame.sizeMm, quarters);
  const width = surface
    ? Math.max(1, Math.min(surface.width - 2 * MARGIN_PX, (surface.height - 2 * MARGIN_PX) * aspect))
    : 0;
  const height = width / aspect;
  const widthMm = frame.sizeMm?.[quarters % 2] ?? null;
  const barMm = widthMm && scaleBarMm(widthMm * BAR_SHARE);
  const picture = useMemo(() => {
    if (!surface) return null;
    const corners = turnedCorners(frame.corners, quarters);
    return cutOut(photo, corners, width, height, surface.pixelRatio);
  }, [photo, frame, quarters, width, height, surface]);
  return (
    <div ref={place} className={styles.place} role="img" aria-label={label}>
      {picture && (
        <div className={styles.box} style={{ width, height }}>
          <PhotoLayer photo={photo} {...picture} />
          {mask && (
            <div style={{ opacity: maskOpacity }}>
              <MaskLayer mask={mask} maskStyle={maskStyle} {...picture} />
            </div>
          )}
          {barMm && widthMm && (
            <div className={styles.scale} style={{ width: (width * barMm) / widthMm }}>
              {area.straight.scale(barMm)}
            </div>
          )}
        </div>
      )}
    </div>
  );
}

/** The part of a photo that the frame lies in, at the size it is needed, and how it is bent. */
interface CutOut {
  /** Which of the photo's smaller copies, and how many of its pixels a photo pixel is. */
  readonly level: number;
  readonly scale: number;
  /** In pixels of that copy. */
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly transform: string;
}

function cutOut(
  photo: PhotoLevels,
  corners: Quadrilateral<'photo'>,
  width: number,
  height: number,
  pixelRatio: number,
): CutOut {
  const xs = corners.map(([x]) => x);
  const ys = corners.map(([, y]) => y);
  const level = levelFor(
    photo.levels.length,
    (width * pixelRatio) / Math.max(1, Math.max(...xs) - Math.min(...xs)),
  );
  const scale = photo.levels[level]!.width / photo.width;
  const left = Math.max(0, Math.floor(Math.min(...xs) * scale) - 1);
  const top = Math.max(0, Math.floor(Math.min(...ys) * scale) - 1);
  const own = corners.map(([x, y]) =>
    photoPoint(x * scale - left, y * scale - top),
  ) as unknown as Quadrilateral<'photo'>;
  return {
    level,
    scale,
    left,
    top,
    width: Math.ceil(Math.max(...xs) * scale) + 1 - left,
    height: Math.ceil(Math.max(...ys) * scale) + 1 - top,
    transform: projectiveTransform(ontoBox(own, width, height)),
  };
}

function PhotoLayer({ photo, level, left, top, width, height, transform }: CutOut & { photo: PhotoLevels }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const context = canvas.current!.getContext('2d')!;
    context.clearRect(0, 0, width, height);
    context.drawImage(photo.levels[level]!, -left, -top);
  }, [photo, level, left, top, width, height]);
  return <canvas ref={canvas} width={width} height={height} style={{ transform }} />;
}

function MaskLayer({
  mask,
  maskStyle,
  scale,
  left,
  top,
  width,
  height,
  transform,
}: CutOut & { mask: LabelMask; maskStyle: Omit<MaskStyle, 'outlines'> }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const picture = new ImageData(width, height);
    const view = { scale, origin: screenPoint(-left, -top) };
    paintMask(mask, view, { ...maskStyle, outlines: false }, new Uint32Array(picture.data.buffer), width, 1);
    canvas.current!.getContext('2d')!.putImageData(picture, 0, 0);
  }, [mask, maskStyle, scale, left, top, width, height]);
  return <canvas ref={canvas} width={width} height={height} style={{ transform }} />;
}
