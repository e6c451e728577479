import { createRoot } from 'react-dom/client';
import { Stopped } from './components/ErrorBoundary.tsx';
import { OfflineProgram } from './offline/offlineProgram.ts';
import { Root } from './Root.tsx';
import { createSession } from './session/createSession.ts';

/** When the start screen has had its turn. */
const OFFLINE_AFTER_MS = 2500;

const root = createRoot(document.getElementById('root')!);
const program = new OfflineProgram(navigator.serviceWorker, () => location.reload());
createSession().then(
  (session) => {
    root.render(<Root session={session} program={program} />);
    // no part of the first load
    if (import.meta.env.PROD) setTimeout(() => void program.start(), OFFLINE_AFTER_MS);
  },
  (error) => {
    console.error(error);
    root.render(<Stopped error={error} />);
  },
);
