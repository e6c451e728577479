import { type ReactNode, useEffect, useId, useRef } from 'react';
import { app } from '../../core/text/app.ts';
import { Button } from './Button.tsx';
import styles from './Dialog.module.css';
import { Icon } from './Icon.tsx';

interface DialogProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** A sheet over the screen: holds the focus, closes on Escape or a press beside it. Mounted means open. */
export function Dialog({ title, onClose, children }: DialogProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  useEffect(() => {
    const opener = document.activeElement;
    dialog.current!.showModal();
    return () => {
      if (opener instanceof HTMLElement && opener.isConnected) opener.focus();
    };
  }, []);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the browser's own Escape key closes the dialog
    <dialog
      ref={dialog}
      className={styles.dialog}
      aria-labelledby={titleId}
      onClose={onClose}
      onClick={(event) => event.target === dialog.current && onClose()}
    >
      <div className={styles.sheet}>
        <header className={styles.header}>
          <h2 id={titleId}>{title}</h2>
          <Button look="quiet" aria-label={app.close} onClick={onClose}>
            <Icon name="close" />
          </Button>
        </header>
        {children}
      </div>
    </dialog>
  );
}
