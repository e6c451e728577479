import { useState } from 'react';
import { app } from '../../core/text/app.ts';
import type { StorageState } from '../session/session.ts';
import { useObservable, useSession } from '../session/useSession.tsx';
import { Button } from './Button.tsx';
import { Notice } from './Notice.tsx';
import styles from './StorageNotices.module.css';
import { saveBlob } from './saveBlob.ts';

/** What a person must know about where the photos are kept, in words. Nothing while all is well. */
export function StorageNotices() {
  const storage = useObservable(useSession().storageState);
  const notices = noticesFor(storage);
  if (notices.length === 0) return null;
  return <div className={styles.notices}>{notices}</div>;
}

function noticesFor(storage: StorageState) {
  const { storage: text } = app;
  switch (storage.state) {
    case 'opening':
      return [];
    case 'newer':
      return [<Trouble key="newer" text={text.newer} />];
    case 'failed':
      return [<Trouble key="failed" text={text.failed(storage.reason)} />];
    case 'full':
      return [<Trouble key="full" text={text.full} />];
    case 'blocked':
      return [
        <Notice key="blocked" kind="trouble">
          <p>{text.blocked}</p>
        </Notice>,
      ];
    case 'ready':
      return [
        storage.otherTabs > 0 && <Remark key="tabs" text={text.otherTabs} />,
        storage.decoder === 'differs' && <Remark key="decoder" text={text.decoderDiffers} />,
        storage.unreadableRecords > 0 && (
          <Trouble key="unreadable" text={text.unreadable(storage.unreadableRecords)} />
        ),
      ].filter((notice) => notice !== false);
  }
}

function Remark({ text }: { text: string }) {
  const [closed, setClosed] = useState(false);
  if (closed) return null;
  return (
    <Notice>
      <p>{text}</p>
      <Button onClick={() => setClosed(true)}>{app.close}</Button>
    </Notice>
  );
}

/** With a way to take the records out, whatever state they are in. */
function Trouble({ text }: { text: string }) {
  const session = useSession();
  const [failure, setFailure] = useState<string | null>(null);
  const save = async () => {
    try {
      saveBlob(await session.exportRaw(), 'swardbook-raw-records.json');
    } catch (error) {
      console.error(error);
      setFailure(app.storage.exportFailed(error instanceof Error ? error.message : String(error)));
    }
  };
  return (
    <Notice kind="trouble">
      <p>
        {text} {failure}
      </p>
      <Button onClick={save}>{app.storage.export}</Button>
    </Notice>
  );
}
