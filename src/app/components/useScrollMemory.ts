import { useEffect, useLayoutEffect, useRef } from 'react';
import { useLocation } from 'wouter';

/** Opens a screen at its top, and comes back to a list where the person had left it. */
export function useScrollMemory(isRemembered: (path: string) => boolean): void {
  const [path] = useLocation();
  const places = useRef(new Map<string, number>());
  const shown = useRef(path);

  useEffect(() => {
    history.scrollRestoration = 'manual';
    const onScroll = () => places.current.set(shown.current, window.scrollY);
    window.addEventListener('scroll', onScroll, { passive: true });
    return () => window.removeEventListener('scroll', onScroll);
  }, []);

  // before the browser paints and reports the scrolling that a shorter page brings with it
  useLayoutEffect(() => {
    shown.current = path;
    window.scrollTo(0, isRemembered(path) ? (places.current.get(path) ?? 0) : 0);
  }, [path, isRemembered]);
}
