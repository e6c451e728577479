import { Suspense, useEffect, useMemo, useRef, useState } from 'react';
import { Redirect, Route, Switch, useLocation } from 'wouter';
import { app } from '../core/text/app.ts';
import styles from './App.module.css';
import type { Command } from './commands/command.ts';
import { useCommands } from './commands/registry.tsx';
import { useAddPhotos } from './components/AddPhotos.tsx';
import { DropTarget } from './components/DropTarget.tsx';
import { ErrorBoundary } from './components/ErrorBoundary.tsx';
import { Header } from './components/Header.tsx';
import { HelpSheet } from './components/HelpSheet.tsx';
import { MeasuringStrip } from './components/MeasuringStrip.tsx';
import { SampleMark } from './components/SampleMark.tsx';
import { StorageNotices } from './components/StorageNotices.tsx';
import { UpdateNotice } from './components/UpdateNotice.tsx';
import { useChromeHeight } from './components/useChromeHeight.ts';
import { useScrollMemory } from './components/useScrollMemory.ts';
import type { Theme } from './components/useTheme.ts';
import { StartScreen } from './screens/start/StartScreen.tsx';
import { SCREENS } from './screenTable.tsx';
import type { StorageState } from './session/session.ts';
import { useCorrectedFigures } from './session/useCorrectedFigures.ts';
import { useObservable, usePhotos, useSession } from './session/useSession.tsx';

interface AppProps {
  readonly theme: Theme;
  readonly onTheme: (theme: Theme) => void;
  readonly singleKeys: boolean;
  readonly onSingleKeys: (on: boolean) => void;
}

/** What stands round every screen, and which screen that is. */
export function App(props: AppProps) {
  const session = useSession();
  const photos = usePhotos();
  const storage = useObservable(session.storageState);
  const { choose } = useAddPhotos();
  const [path, navigate] = useLocation();
  const chrome = useRef<HTMLDivElement>(null);
  const [help, setHelp] = useState(false);
  const hasPhotos = photos.length > 0;

  const commands = useMemo<readonly Command[]>(
    () => [
      {
        id: 'help',
        label: app.commands.help,
        shortcut: { key: '?' },
        isEnabled: () => true,
        run: () => setHelp(true),
      },
      {
        id: 'open-photos',
        label: app.commands.openPhotos,
        shortcut: { key: 'a' },
        isEnabled: () => true,
        run: choose,
      },
      {
        id: 'go-to-photos',
        label: app.commands.goToPhotos,
        shortcut: { key: 'g' },
        isEnabled: () => hasPhotos,
        run: () => navigate('/photos'),
      },
      {
        id: 'go-to-plan',
        label: app.commands.goToPlan,
        shortcut: { key: 'l' },
        isEnabled: () => true,
        run: () => navigate('/plan'),
      },
      {
        id: 'pause',
        label: app.commands.pause,
        shortcut: { key: ' ', shift: true },
        isEnabled: () => session.progress.get().total > 0,
        run: () => (session.progress.get().paused ? session.resume() : session.pause()),
      },
    ],
    [choose, hasPhotos, navigate, session],
  );
  useCommands(commands, 'everywhere');
  useChromeHeight(chrome);
  useScrollMemory(isList);
  useEffect(() => {
    const fetchScreens = () => void Promise.all(SCREENS.map(({ fetch }) => fetch()));
    const timer = setTimeout(fetchScreens, IDLE_AFTER_MS);
    return () => clearTimeout(timer);
  }, []);
  const { state } = storage;
  useEffect(() => {
    if (state !== 'ready') return;
    // photos find their plots on every screen
    const timer = setTimeout(() => void session.openTrial().catch(console.error), IDLE_AFTER_MS);
    return () => clearTimeout(timer);
  }, [session, state]);
  useCorrectedFigures(session, state === 'ready', IDLE_AFTER_MS);

  // what was read before the store failed may still be looked at
  const kept = state === 'ready' || state === 'full' || (state === 'failed' && hasPhotos);
  // the start screen has nothing to wait for where nothing was ever stored
  const usable = kept || (state === 'opening' && storage.empty && path === '/');
  return (
    <>
      <button type="button" className={styles.skip} onClick={skipToContent}>
        {app.skipToContent}
      </button>
      <div ref={chrome} className={styles.chrome}>
        <Header hasPhotos={hasPhotos} onHelp={() => setHelp(true)} />
        <SampleMark />
        <MeasuringStrip />
        <StorageNotices />
        <UpdateNotice />
      </div>
      <main id="content" tabIndex={-1} className={styles.main}>
        {state === 'opening' && !usable && (
          <p className={styles.opening} role="status">
            {app.storage.opening}
          </p>
        )}
        {!usable && isStopped(state) && <h1 className={styles.stopped}>{app.storage.heading[state]}</h1>}
        {usable && (
          <ErrorBoundary key={path.split('/')[1]} withinPage>
            <Suspense fallback={null}>
              <Switch>
                {SCREENS.filter(({ needsPhotos }) => hasPhotos || !needsPhotos).map(
                  ({ id, path, Screen }) => (
                    <Route key={id} path={path}>
                      {(params) => <Screen params={params} />}
                    </Route>
                  ),
                )}
                <Route>{hasPhotos ? <Redirect to="/photos" replace /> : <StartScreen />}</Route>
              </Switch>
            </Suspense>
          </ErrorBoundary>
        )}
      </main>
      <DropTarget />
      {help && <HelpSheet {...props} onClose={() => setHelp(false)} />}
    </>
  );
}

/** When the start screen has had its turn, the others are fetched, so that they are there without a network. */
const IDLE_AFTER_MS = 1500;

/** Nothing can be shown, and a notice says why. */
const isStopped = (state: StorageState['state']) =>
  state === 'failed' || state === 'blocked' || state === 'newer';

const isList = (path: string) => path === '/photos';

/** A link to a fragment would be taken for a route, so a button moves the focus. */
const skipToContent = () => document.getElementById('content')!.focus();
