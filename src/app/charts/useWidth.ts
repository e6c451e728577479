import { type RefObject, useLayoutEffect, useState } from 'react';

/** The inner width of an element in whole pixels; `first` until it is laid out. */
export function useWidth(element: RefObject<Element | null>, first: number): number {
  const [width, setWidth] = useState(first);
  useLayoutEffect(() => {
    const take = (px: number) => {
      if (px >= 1) setWidth(Math.floor(px));
    };
    take(element.current!.getBoundingClientRect().width);
    const observer = new ResizeObserver((entries) => take(entries.at(-1)!.contentRect.width));
    observer.observe(element.current!);
    return () => observer.disconnect();
  }, [element]);
  return width;
}
