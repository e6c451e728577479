import { type RefObject, useEffect, useState } from 'react';
import type { Size } from './view.ts';

export interface Surface extends Size {
  /** Device pixels to a CSS pixel. */
  readonly pixelRatio: number;
}

/** The size of an element in CSS pixels, kept up to date; null before it is laid out. */
export function useSurface(element: RefObject<HTMLElement | null>): Surface | null {
  const [surface, setSurface] = useState<Surface | null>(null);
  useEffect(() => {
    const observed = element.current!;
    const measure = () => {
      const { clientWidth: width, clientHeight: height } = observed;
      if (width === 0 || height === 0) return;
      const pixelRatio = window.devicePixelRatio;
      setSurface((last) =>
        last?.width === width && last.height === height && last.pixelRatio === pixelRatio
          ? last
          : { width, height, pixelRatio },
      );
    };
    const observer = new ResizeObserver(measure);
    observer.observe(observed);
    window.addEventListener('resize', measure);
    return () => {
      observer.disconnect();
      window.removeEventListener('resize', measure);
    };
  }, [element]);
  return surface;
}
