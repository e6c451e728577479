import { type RefObject, useEffect, useState } from 'react';

/** How far from the window things count as near. */
const AHEAD = '600px';

/** Whether an element is in the window or near it. */
export function useNear(element: RefObject<Element | null>): boolean {
  const [near, setNear] = useState(false);
  useEffect(() => {
    const observer = new IntersectionObserver((entries) => setNear(entries.at(-1)!.isIntersecting), {
      rootMargin: AHEAD,
    });
    observer.observe(element.current!);
    return () => observer.disconnect();
  }, [element]);
  return near;
}
