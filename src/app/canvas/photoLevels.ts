/** A decoded photo at full size and at halves of it, so that a photo made small on screen is smooth and quick to draw. */
export interface PhotoLevels {
  readonly width: number;
  readonly height: number;
  /** Full size first, then half, quarter … */
  readonly levels: readonly ImageBitmap[];
  /** Frees the pictures' memory. */
  close(): void;
}

/** Smaller copies stop at this side length: no screen shows a photo smaller than that. */
const SMALLEST_LEVEL_PX = 320;

/**
 * Decodes a photo for looking at, upright and in the screen's colours.
 *
 * @throws DOMException if this browser cannot decode the file, or the signal's reason
 */
export async function decodeLevels(bytes: ArrayBuffer, signal: AbortSignal): Promise<PhotoLevels> {
  const full = await createImageBitmap(new Blob([bytes]));
  const levels = [full];
  const close = () => {
    for (const level of levels) level.close();
  };
  try {
    signal.throwIfAborted();
    for (let last = full; Math.max(last.width, last.height) >= 2 * SMALLEST_LEVEL_PX; ) {
      last = await createImageBitmap(last, {
        resizeWidth: Math.ceil(last.width / 2),
        resizeHeight: Math.ceil(last.height / 2),
        resizeQuality: 'medium',
      });
      levels.push(last);
      signal.throwIfAborted();
    }
  } catch (error) {
    close();
    throw error;
  }
  return { width: full.width, height: full.height, levels, close };
}

/**
 * The smallest level that still has a picture element for each device pixel.
 *
 * @param scale device pixels to a photo pixel
 */
export function levelFor(levelCount: number, scale: number): number {
  const halvings = Math.floor(Math.log2(1 / scale) + 1e-9);
  return Math.min(levelCount - 1, Math.max(0, halvings));
}
