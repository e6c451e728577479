import { useEffect } from 'react';
import { oneOf, usePreference } from './usePreference.ts';

export type Theme = 'system' | 'light' | 'dark' | 'sun';

/** The brightness a person chose, put on the page; `system` leaves it to the device. */
export function useTheme(): readonly [Theme, (theme: Theme) => void] {
  const [theme, setTheme] = usePreference<Theme>('theme', 'system', isTheme);
  useEffect(() => {
    if (theme === 'system') delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = theme;
  }, [theme]);
  return [theme, setTheme];
}

const isTheme = oneOf<Theme>('system', 'light', 'dark', 'sun');
