import { type PhotoPoint, photoPoint, type ScreenPoint, screenPoint } from '../../core/geometry/points.ts';

/** How the photo lies on the drawing surface. */
export interface View {
  /** CSS pixels of the surface to one photo pixel. */
  readonly scale: number;
  /** Where the photo's top left corner is on the surface. */
  readonly origin: ScreenPoint;
}

/** Width and height; of the photo in its pixels, of the surface in CSS pixels. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** The closest a person can get: this many CSS pixels to a photo pixel. */
const CLOSEST = 24;

/**
 * The whole photo, centred, as large as the surface allows.
 *
 * @param margin CSS pixels left free on every side @default 0
 */
export function fitView(photo: Size, surface: Size, margin = 0): View {
  const scale = Math.min(
    (surface.width - 2 * margin) / photo.width,
    (surface.height - 2 * margin) / photo.height,
  );
  return {
    scale,
    origin: screenPoint(
      (surface.width - photo.width * scale) / 2,
      (surface.height - photo.height * scale) / 2,
    ),
  };
}

/** The view that shows a point of the photo at the middle of the surface. */
export function centredOn([x, y]: PhotoPoint, scale: number, surface: Size): View {
  return { scale, origin: screenPoint(surface.width / 2 - x * scale, surface.height / 2 - y * scale) };
}

export function photoToScreen({ scale, origin }: View, [x, y]: PhotoPoint): ScreenPoint {
  return screenPoint(origin[0] + x * scale, origin[1] + y * scale);
}

export function screenToPhoto({ scale, origin }: View, [x, y]: ScreenPoint): PhotoPoint {
  return photoPoint((x - origin[0]) / scale, (y - origin[1]) / scale);
}

/** Zooms so that the photo point under `anchor` stays under it. */
export function zoomAt(view: View, anchor: ScreenPoint, factor: number): View {
  return {
    scale: view.scale * factor,
    origin: screenPoint(
      anchor[0] + (view.origin[0] - anchor[0]) * factor,
      anchor[1] + (view.origin[1] - anchor[1]) * factor,
    ),
  };
}

export function panBy({ scale, origin }: View, dx: number, dy: number): View {
  return { scale, origin: screenPoint(origin[0] + dx, origin[1] + dy) };
}

/** The view after two fingers moved: what was under their middle follows it, the scale follows their distance. */
export function pinch(
  view: View,
  [a, b]: readonly [ScreenPoint, ScreenPoint],
  [c, d]: readonly [ScreenPoint, ScreenPoint],
): View {
  const before = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const after = Math.hypot(d[0] - c[0], d[1] - c[1]);
  const middle = screenPoint((a[0] + b[0]) / 2, (a[1] + b[1]) / 2);
  const moved = panBy(view, (c[0] + d[0]) / 2 - middle[0], (c[1] + d[1]) / 2 - middle[1]);
  return before > 0
    ? zoomAt(moved, screenPoint((c[0] + d[0]) / 2, (c[1] + d[1]) / 2), after / before)
    : moved;
}

/**
 * The nearest view that makes sense: never smaller than the whole photo, never closer than the limit, and without
 * more than the margin left empty beside a photo that is larger than the surface.
 */
export function settleView(view: View, photo: Size, surface: Size, margin = 0): View {
  const smallest = fitView(photo, surface, margin).scale;
  const scale = Math.min(Math.max(view.scale, smallest), Math.max(CLOSEST, smallest));
  const middle = screenPoint(surface.width / 2, surface.height / 2);
  const { origin } = scale === view.scale ? view : zoomAt(view, middle, scale / view.scale);
  const settle = (at: number, length: number, room: number) =>
    length <= room - 2 * margin
      ? (room - length) / 2
      : Math.min(margin, Math.max(room - margin - length, at));
  return {
    scale,
    origin: screenPoint(
      settle(origin[0], photo.width * scale, surface.width),
      settle(origin[1], photo.height * scale, surface.height),
    ),
  };
}

/** Whether the whole photo is in sight. */
export function isFitted(view: View, photo: Size, surface: Size, margin = 0): boolean {
  return view.scale <= fitView(photo, surface, margin).scale * 1.001;
}

/** The view in the device pixels of a canvas instead of CSS pixels. */
export function inDevicePixels({ scale, origin }: View, pixelRatio: number): View {
  return {
    scale: scale * pixelRatio,
    origin: screenPoint(origin[0] * pixelRatio, origin[1] * pixelRatio),
  };
}

/** The view of a mask whose pixels are squares of photo pixels, laid where it belongs. */
export function placedView(
  { scale, origin }: View,
  place: { readonly leftPx: number; readonly topPx: number; readonly cellPx: number },
): View {
  return {
    scale: scale * place.cellPx,
    origin: screenPoint(origin[0] + place.leftPx * scale, origin[1] + place.topPx * scale),
  };
}
