import { Component, type ReactNode } from 'react';
import { app } from '../../core/text/app.ts';
import { Button } from './Button.tsx';
import styles from './ErrorBoundary.module.css';

interface ErrorBoundaryState {
  readonly error: unknown;
}

interface ErrorBoundaryProps {
  /** What stands round it stays, so that another screen can be gone to. @default false */
  readonly withinPage?: boolean;
  readonly children: ReactNode;
}

/** Says so when a screen stops with an error, instead of an empty page. */
export class ErrorBoundary extends Component<ErrorBoundaryProps, ErrorBoundaryState> {
  override state: ErrorBoundaryState = { error: null };

  static getDerivedStateFromError(error: unknown): ErrorBoundaryState {
    return { error };
  }

  override render() {
    const { error } = this.state;
    const { children, withinPage = false } = this.props;
    return error === null ? children : <Stopped error={error} withinPage={withinPage} />;
  }
}

/** The sentence for when nothing else can be shown. */
export function Stopped({ error, withinPage = false }: { error: unknown; withinPage?: boolean }) {
  const Frame = withinPage ? 'section' : 'main';
  return (
    <Frame className={styles.stopped} role="alert">
      <h1>{app.name}</h1>
      <p>{app.crashed}</p>
      <pre>{error instanceof Error ? `${error.name}: ${error.message}` : String(error)}</pre>
      <Button look="main" onClick={() => location.reload()}>
        {app.reload}
      </Button>
    </Frame>
  );
}
