/** A box of pixels; right and bottom are exclusive. */
export interface PixelBox {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

interface Size {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** The box of all pixels of a photo. */
export const boxOfPhoto = ({ widthPx, heightPx }: Size): PixelBox => ({
  left: 0,
  top: 0,
  right: widthPx,
  bottom: heightPx,
});

/** The whole pixels of a box that lie in the photo; of no width or height where there are none. */
export function clippedBox(box: PixelBox, { widthPx, heightPx }: Size): PixelBox {
  const left = Math.max(0, Math.floor(box.left));
  const top = Math.max(0, Math.floor(box.top));
  return {
    left,
    top,
    right: Math.max(left, Math.min(widthPx, Math.ceil(box.right))),
    bottom: Math.max(top, Math.min(heightPx, Math.ceil(box.bottom))),
  };
}

/** The smallest box round two; null is no box. */
export function boxRound(a: PixelBox | null, b: PixelBox | null): PixelBox | null {
  if (a === null || b === null) return a ?? b;
  return {
    left: Math.min(a.left, b.left),
    top: Math.min(a.top, b.top),
    right: Math.max(a.right, b.right),
    bottom: Math.max(a.bottom, b.bottom),
  };
}
