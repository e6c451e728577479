import type { ReactNode } from 'react';
import { Icon } from './Icon.tsx';
import styles from './Notice.module.css';

interface NoticeProps {
  /** `trouble` interrupts a screen reader, `remark` waits its turn. @default 'remark' */
  readonly kind?: 'remark' | 'trouble';
  readonly children: ReactNode;
}

/** A sentence that matters, set apart from the rest. */
export function Notice({ kind = 'remark', children }: NoticeProps) {
  return (
    <div className={`${styles.notice} ${styles[kind]}`} role={kind === 'trouble' ? 'alert' : 'status'}>
      {kind === 'trouble' && <Icon name="trouble" />}
      <div className={styles.body}>{children}</div>
    </div>
  );
}
