import { useEffect } from 'react';
import type { Session } from './session.ts';

/**
 * Keeps corrected figures in step with automatic ones while the page is open.
 *
 * @param afterMs how long the page has its turn first
 */
export function useCorrectedFigures(session: Session, storeIsReady: boolean, afterMs: number): void {
  useEffect(() => {
    if (!storeIsReady) return;
    let left = false;
    let stop = () => {};
    const open = async () => {
      const { openCorrectedFigures } = await import('./correctedFigures.ts');
      if (left) return;
      const figures = await session.open(openCorrectedFigures);
      stop = () => figures.stop();
      if (left) stop();
    };
    const timer = setTimeout(() => void open().catch(console.error), afterMs);
    return () => {
      left = true;
      clearTimeout(timer);
      stop();
    };
  }, [session, storeIsReady, afterMs]);
}
