import { Router } from 'wouter';
import { useHashLocation } from 'wouter/use-hash-location';
import { App } from './App.tsx';
import { CommandProvider } from './commands/registry.tsx';
import { AddPhotosProvider } from './components/AddPhotos.tsx';
import { ErrorBoundary } from './components/ErrorBoundary.tsx';
import { isBoolean, usePreference } from './components/usePreference.ts';
import { ThemeContext, useTheme } from './components/useTheme.ts';
import type { OfflineProgram } from './offline/offlineProgram.ts';
import { OfflineProvider } from './offline/useOffline.tsx';
import type { Session } from './session/session.ts';
import { SessionProvider } from './session/useSession.tsx';

/** The page with everything its parts rely on. */
export function Root({ session, program }: { session: Session; program: OfflineProgram }) {
  const choice = useTheme();
  const [theme, onTheme] = choice;
  const [singleKeys, onSingleKeys] = usePreference('keys.single', true, isBoolean);
  return (
    <ErrorBoundary>
      <ThemeContext value={choice}>
        <SessionProvider session={session}>
          <Router hook={useHashLocation}>
            <OfflineProvider program={program}>
              <CommandProvider singleKeys={singleKeys}>
                <AddPhotosProvider>
                  <App theme={theme} onTheme={onTheme} singleKeys={singleKeys} onSingleKeys={onSingleKeys} />
                </AddPhotosProvider>
              </CommandProvider>
            </OfflineProvider>
          </Router>
        </SessionProvider>
      </ThemeContext>
    </ErrorBoundary>
  );
}
