import { type RefObject, useEffect, useState } from 'react';

/** How far ahead of the window things count as seen already. */
const AHEAD = '600px';

/** Whether an element has come near the window yet; stays true from then on. */
export function useSeen(element: RefObject<Element | null>): boolean {
  const [seen, setSeen] = useState(false);
  useEffect(() => {
    if (seen) return;
    const observer = new IntersectionObserver(
      (entries) => setSeen(entries.some((entry) => entry.isIntersecting)),
      {
        rootMargin: AHEAD,
      },
    );
    observer.observe(element.current!);
    return () => observer.disconnect();
  }, [element, seen]);
  return seen;
}
