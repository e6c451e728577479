import { useEffect, useState } from 'react';

/**
 * Keeps the screen on while `wanted` and the page is in front, where the browser can.
 *
 * @returns whether it stays on; false as well where the device refuses, as on an empty battery
 */
export function useWakeLock(wanted: boolean): boolean {
  const [awake, setAwake] = useState(false);
  useEffect(() => {
    if (!wanted || !('wakeLock' in navigator)) return;
    let lock: WakeLockSentinel | null = null;
    let ended = false;
    const ask = async () => {
      if (ended || lock || document.visibilityState !== 'visible') return;
      try {
        const granted = await navigator.wakeLock.request('screen');
        if (ended) return void granted.release();
        lock = granted;
        setAwake(true);
        // the browser lets go of it when the page is hidden
        granted.addEventListener('release', () => {
          lock = null;
          if (!ended) setAwake(false);
        });
      } catch (error) {
        console.info('the screen may go dark', error);
      }
    };
    const onVisibility = () => void ask();
    document.addEventListener('visibilitychange', onVisibility);
    void ask();
    return () => {
      ended = true;
      document.removeEventListener('visibilitychange', onVisibility);
      void lock?.release();
      setAwake(false);
    };
  }, [wanted]);
  return awake;
}
