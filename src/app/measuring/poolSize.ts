/** What a browser tells of the device it runs on. */
export interface DeviceFacts {
  readonly cores: number;
  /** Rounded and capped by the browser; null where it does not tell. */
  readonly memoryGiB: number | null;
  /** Pointed at with fingers. */
  readonly coarsePointer: boolean;
  /** Shorter side of the screen, CSS pixels. */
  readonly screenShorterSidePx: number;
}

/** Above this it is no phone; the largest phones are near 450. */
const SMALL_SCREEN_PX = 600;
const LITTLE_MEMORY_GIB = 4;

/**
 * How many photos are measured at the same time. One on a phone, where a second 12-megapixel photo in memory may end
 * the page; elsewhere one less than there are cores, so that the page keeps one.
 */
export function poolSize({ cores, memoryGiB, coarsePointer, screenShorterSidePx }: DeviceFacts): number {
  const phone = coarsePointer && screenShorterSidePx < SMALL_SCREEN_PX;
  const littleMemory = memoryGiB !== null && memoryGiB <= LITTLE_MEMORY_GIB;
  return phone || littleMemory ? 1 : Math.max(1, cores - 1);
}

/** The device of this page. */
export function deviceFacts(): DeviceFacts {
  const { deviceMemory } = navigator as { deviceMemory?: number };
  return {
    cores: navigator.hardwareConcurrency,
    memoryGiB: deviceMemory ?? null,
    coarsePointer: matchMedia('(pointer: coarse)').matches,
    screenShorterSidePx: Math.min(screen.width, screen.height),
  };
}
