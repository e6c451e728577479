import { createContext, useEffect, useMemo } from 'react';
import { oneOf, usePreference } from './usePreference.ts';

export const THEMES = ['system', 'light', 'dark', 'sun'] as const;
export type Theme = (typeof THEMES)[number];
type ThemeChoice = readonly [theme: Theme, onTheme: (theme: Theme) => void];

/** The brightness of the page and the way to change it. */
export const ThemeContext = createContext<ThemeChoice>(['system', () => {}]);

/** The brightness a person chose, put on the page; `system` leaves it to the device. For the root of the page. */
export function useTheme(): ThemeChoice {
  const [theme, setTheme] = usePreference<Theme>('theme', 'system', isTheme);
  useEffect(() => {
    if (theme === 'system') delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = theme;
  }, [theme]);
  return useMemo(() => [theme, setTheme], [theme, setTheme]);
}

const isTheme = oneOf<Theme>(...THEMES);
