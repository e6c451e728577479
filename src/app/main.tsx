import { createRoot } from 'react-dom/client';
import { Stopped } from './components/ErrorBoundary.tsx';
import { Root } from './Root.tsx';
import { createSession } from './session/createSession.ts';
import './styles/tokens.css';
import './styles/base.css';

const root = createRoot(document.getElementById('root')!);
createSession().then(
  (session) => root.render(<Root session={session} />),
  (error) => {
    console.error(error);
    root.render(<Stopped error={error} />);
  },
);
