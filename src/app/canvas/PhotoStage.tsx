import { type KeyboardEvent, type ReactNode, type RefObject, useCallback, useMemo } from 'react';
import type { PhotoPoint } from '../../core/geometry/points.ts';
import type { LabelMask } from '../../core/raster/labelMask.ts';
import type { PlacedMask } from '../../core/raster/placedMask.ts';
import { CanvasLayer } from './CanvasLayer.tsx';
import { drawPhoto } from './drawPhoto.ts';
import styles from './PhotoStage.module.css';
import { type MaskStyle, paintMask } from './paintMask.ts';
import type { PhotoLevels } from './photoLevels.ts';
import type { Surface } from './useSurface.ts';
import { type PaintGestures, useViewGestures } from './useViewGestures.ts';
import { inDevicePixels, panBy, placedView, screenToPhoto, type View } from './view.ts';

/** From this many device pixels to a photo pixel on, classes are told apart by outline and pattern as well. */
const SIGNS_FROM_SCALE = 4;
/** How far an arrow key moves the photo, in CSS pixels. */
const KEY_STEP_PX = 60;

interface PhotoStageProps {
  readonly stage: RefObject<HTMLDivElement | null>;
  readonly surface: Surface | null;
  readonly label: string;
  readonly photo: PhotoLevels | null;
  readonly view: View | null;
  /** Whether all of the photo is in sight; then a finger may scroll the page. */
  readonly fitted: boolean;
  readonly changeView: (step: (view: View) => View) => void;
  readonly mask: LabelMask | null;
  /** Where a mask coarser than the photo lies. @default the mask's pixels are the photo's */
  readonly maskPlace?: Omit<PlacedMask, 'mask'> | null;
  readonly maskStyle: Omit<MaskStyle, 'outlines'>;
  readonly maskOpacity: number;
  /** Told the photo point under the pointer. */
  readonly onPoint: (at: PhotoPoint | null) => void;
  /** What one pointer does instead of moving the photo. @default it moves the photo */
  readonly paint?: PaintGestures | null;
  /** Told of keys first. @returns whether the key was used */
  readonly onKey?: (event: KeyboardEvent) => boolean;
  /** What lies on the photo: frame, handles. */
  readonly children?: ReactNode;
}

/** The photo with its classes: layers that are redrawn one by one, moved and zoomed together. */
export function PhotoStage(props: PhotoStageProps) {
  const {
    stage,
    surface,
    label,
    photo,
    view,
    fitted,
    changeView,
    mask,
    maskPlace = null,
    maskStyle,
    maskOpacity,
    onPoint,
    paint: painting = null,
    onKey,
    children,
  } = props;
  const gestures = useViewGestures(stage, {
    change: changeView,
    onPoint: (at) => onPoint(at && view && screenToPhoto(view, at)),
    paint: painting,
  });

  const draw = useCallback(
    (context: CanvasRenderingContext2D) => {
      if (photo && view && surface) drawPhoto(context, photo, inDevicePixels(view, surface.pixelRatio));
    },
    [photo, view, surface],
  );
  const maskSurface = useMemo(() => surface && withFewerPixels(surface), [surface]);
  const paint = useMaskPainter(mask, maskPlace, view, maskSurface, maskStyle);

  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset is for forms
    <div
      ref={stage}
      className={[styles.stage, !fitted && styles.zoomed, painting && styles.painting]
        .filter(Boolean)
        .join(' ')}
      role="group"
      aria-label={label}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: arrow keys move the photo while it has the focus
      tabIndex={0}
      onKeyDown={(event) => {
        const step = ARROWS[event.key];
        if (event.target === event.currentTarget && onKey?.(event)) {
          event.preventDefault();
          event.stopPropagation();
          return;
        }
        if (!step || event.target !== event.currentTarget || event.ctrlKey || event.altKey || event.metaKey)
          return;
        event.preventDefault();
        changeView((last) => panBy(last, step[0] * KEY_STEP_PX, step[1] * KEY_STEP_PX));
      }}
      {...gestures}
    >
      {surface && maskSurface && (
        <>
          <CanvasLayer surface={surface} draw={draw} />
          <CanvasLayer surface={maskSurface} draw={paint} opacity={maskOpacity} />
        </>
      )}
      {children}
    </div>
  );
}

/** More than this is not painted in one frame while the photo moves; a finer screen gets a slightly coarser mask. */
const MOST_MASK_PIXELS = 2_500_000;

function withFewerPixels(surface: Surface): Surface {
  const finest = Math.sqrt(MOST_MASK_PIXELS / (surface.width * surface.height));
  return { ...surface, pixelRatio: Math.min(surface.pixelRatio, finest) };
}

/** Which way the photo goes when an arrow key looks further in its direction. */
const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [1, 0],
  ArrowRight: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Draws the mask layer; the function changes only when the layer has to be redrawn. */
function useMaskPainter(
  mask: LabelMask | null,
  place: Omit<PlacedMask, 'mask'> | null,
  view: View | null,
  surface: Surface | null,
  { classes, shown, patterns }: Omit<MaskStyle, 'outlines'>,
) {
  // one picture for all drawings of one size
  const picture = useMemo(
    () =>
      surface &&
      new ImageData(
        Math.round(surface.width * surface.pixelRatio),
        Math.round(surface.height * surface.pixelRatio),
      ),
    [surface],
  );
  return useCallback(
    (context: CanvasRenderingContext2D) => {
      if (!mask || !view || !surface || !picture) {
        context.clearRect(0, 0, context.canvas.width, context.canvas.height);
        return;
      }
      const device = inDevicePixels(view, surface.pixelRatio);
      const close = device.scale >= SIGNS_FROM_SCALE;
      const style = { classes, shown, patterns: patterns || close, outlines: close };
      const placed = place ? placedView(device, place) : device;
      paintMask(mask, placed, style, new Uint32Array(picture.data.buffer), picture.width, surface.pixelRatio);
      context.putImageData(picture, 0, 0);
    },
    [mask, place, view, surface, picture, classes, shown, patterns],
  );
}
