import { useState } from 'react';
import { useLocation } from 'wouter';
import { sampleTrialText as text } from '../../core/text/sampleTrial.ts';
import { useSession } from '../session/useSession.tsx';
import { Button } from './Button.tsx';
import { Dialog } from './Dialog.tsx';
import dialog from './EditDialog.module.css';
import { Notice } from './Notice.tsx';
import styles from './SampleStrip.module.css';

/** One line over every screen of the sample trial, with the way to be rid of it. */
export function SampleStrip() {
  const session = useSession();
  const [, navigate] = useLocation();
  const [asks, setAsks] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const remove = async () => {
    const { removeSampleTrial } = await import('../session/sampleTrial.ts');
    const reason = await session.open(removeSampleTrial);
    if (reason !== null) setTrouble(reason);
    else navigate('/');
  };
  return (
    <>
      <aside className={styles.strip} aria-label={text.short}>
        <p className={styles.long}>{text.mark}</p>
        <p className={styles.short}>{text.short}</p>
        <Button look="quiet" onClick={() => setAsks(true)}>
          {text.remove}
        </Button>
      </aside>
      {asks && (
        <Dialog title={text.removing.title} onClose={() => setAsks(false)}>
          <p>{text.removing.body}</p>
          {trouble !== null && (
            <Notice kind="trouble">
              <p>{text.removing.failed(trouble)}</p>
            </Notice>
          )}
          <div className={dialog.actions}>
            <Button onClick={() => setAsks(false)}>{text.removing.keep}</Button>
            <Button look="main" onClick={() => void remove()}>
              {text.removing.confirm}
            </Button>
          </div>
        </Dialog>
      )}
    </>
  );
}
