import { Component, type ReactNode } from 'react';
import { app } from '../../core/text/app.ts';
import { Button } from './Button.tsx';
import styles from './ErrorBoundary.module.css';

interface ErrorBoundaryState {
  readonly error: unknown;
}

/** Says so when a screen stops with an error, instead of an empty page. */
export class ErrorBoundary extends Component<{ children: ReactNode }, ErrorBoundaryState> {
  override state: ErrorBoundaryState = { error: null };

  static getDerivedStateFromError(error: unknown): ErrorBoundaryState {
    return { error };
  }

  override render() {
    const { error } = this.state;
    if (error === null) return this.props.children;
    return <Stopped error={error} />;
  }
}

/** The sentence for when nothing else can be shown. */
export function Stopped({ error }: { error: unknown }) {
  return (
    <main className={styles.stopped} role="alert">
      <h1>{app.name}</h1>
      <p>{app.crashed}</p>
      <pre>{error instanceof Error ? `${error.name}: ${error.message}` : String(error)}</pre>
      <Button look="main" onClick={() => location.reload()}>
        {app.reload}
      </Button>
    </main>
  );
}
