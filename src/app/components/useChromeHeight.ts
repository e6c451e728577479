import { type RefObject, useEffect } from 'react';

/**
 * Keeps the height of what stands above the screens in the custom property `--chrome`, so that a screen can fill
 * exactly what is left of the window, whatever notices there are.
 */
export function useChromeHeight(chrome: RefObject<HTMLElement | null>): void {
  useEffect(() => {
    const element = chrome.current!;
    const observer = new ResizeObserver(() => {
      document.documentElement.style.setProperty('--chrome', `${element.offsetHeight}px`);
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, [chrome]);
}
