import type { ReactNode } from 'react';
import styles from './Page.module.css';

interface PageProps {
  readonly title: string;
  /** Beside the title, quieter: a state, who signs, what is shown. */
  readonly aside?: ReactNode;
  /** At the far end of the title's line: what is done most on this screen. */
  readonly action?: ReactNode;
  /** Whether the title says no more than the tab at the thumb, and is only spoken on a phone. @default false */
  readonly namedByTab?: boolean;
  /** Whether the screen fills a desk from side to side. @default false */
  readonly wide?: boolean;
  readonly children: ReactNode;
}

/** A screen that is read from top to bottom: its head, then what it shows, on one grid. */
export function Page({ title, aside, action, namedByTab = false, wide = false, children }: PageProps) {
  return (
    <div className={`${styles.page} ${wide ? styles.wide : ''}`}>
      <header className={`${styles.head} ${namedByTab ? styles.namedByTab : ''}`}>
        <h1>{title}</h1>
        {aside && <div className={styles.aside}>{aside}</div>}
        {action && <div className={styles.action}>{action}</div>}
      </header>
      {children}
    </div>
  );
}
