import { type ReactNode, useState } from 'react';
import { app } from '../../core/text/app.ts';
import { formatBytes } from '../../core/text/format.ts';
import { isSampleId } from '../session/sampleId.ts';
import type { StorageFailure, StorageState } from '../session/session.ts';
import { useObservable, usePhotos, useSession } from '../session/useSession.tsx';
import { Button } from './Button.tsx';
import { Notice } from './Notice.tsx';
import styles from './StorageNotices.module.css';
import { saveBlob } from './saveBlob.ts';
import { isBoolean, usePreference } from './usePreference.ts';

const { storage: text } = app;

/** What a person must know about where the photos are kept, in words. Nothing while all is well. */
export function StorageNotices() {
  const session = useSession();
  const storage = useObservable(session.storageState);
  // the sample trial can be fetched again
  const hasPhotos = usePhotos().some(({ id }) => !isSampleId(id));
  const [warned, onWarned] = usePreference('storage.warned', false, isBoolean);
  const mayLose = storage.state === 'ready' && hasPhotos && !storage.persisted && !warned && isPageOnPhone();
  const notices = noticesFor(storage, () => session.acknowledgeLoss());
  if (mayLose) {
    notices.push(
      <Remark key="may-lose" close={text.understood} onClose={() => onWarned(true)}>
        {text.mayLose}
      </Remark>,
    );
  }
  if (notices.length === 0) return null;
  return <div className={styles.notices}>{notices}</div>;
}

/** Phones clear what a page keeps sooner than computers do, unless it was installed. */
const isPageOnPhone = () =>
  matchMedia('(pointer: coarse)').matches && !matchMedia('(display-mode: standalone)').matches;

function noticesFor(storage: StorageState, acknowledgeLoss: () => void): ReactNode[] {
  switch (storage.state) {
    case 'opening':
      return [];
    case 'newer':
      return [<Trouble key="newer">{text.newer}</Trouble>];
    case 'failed':
      return [<Failed key="failed" failure={storage.failure} />];
    case 'full':
      return [
        <Trouble key="full">
          {text.full(storage.usedBytes === null ? null : formatBytes(storage.usedBytes))}
        </Trouble>,
      ];
    case 'blocked':
      return [
        <Notice key="blocked" kind="trouble">
          <p>{text.blocked}</p>
        </Notice>,
      ];
    case 'ready':
      return [
        storage.lost && (
          <Remark key="lost" kind="trouble" close={text.understood} onClose={acknowledgeLoss}>
            {text.lost(storage.lost.photos, app.day(storage.lost.at.slice(0, 10)))}
          </Remark>
        ),
        storage.otherTabs > 0 && <ClosableRemark key="tabs">{text.otherTabs}</ClosableRemark>,
        storage.decoder === 'differs' && <ClosableRemark key="decoder">{text.decoderDiffers}</ClosableRemark>,
        storage.unreadableRecords > 0 && (
          <Trouble key="unreadable">{text.unreadable(storage.unreadableRecords)}</Trouble>
        ),
      ].filter(Boolean);
  }
}

function Failed({ failure }: { failure: StorageFailure }) {
  switch (failure.code) {
    case 'insecure-context':
    case 'forbidden':
      // nothing was ever kept, so there is nothing to save
      return (
        <Notice kind="trouble">
          <p>{text.failed[failure.code]()}</p>
        </Notice>
      );
    case 'closed':
      return <Trouble>{text.failed.closed()}</Trouble>;
    default:
      return <Trouble>{text.failed[failure.code](failure.detail)}</Trouble>;
  }
}

function ClosableRemark({ children }: { children: ReactNode }) {
  const [closed, setClosed] = useState(false);
  if (closed) return null;
  return (
    <Remark close={app.close} onClose={() => setClosed(true)}>
      {children}
    </Remark>
  );
}

interface RemarkProps {
  /** @default 'remark' */
  readonly kind?: 'remark' | 'trouble';
  readonly close: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

function Remark({ kind = 'remark', close, onClose, children }: RemarkProps) {
  return (
    <Notice kind={kind}>
      <p>{children}</p>
      <Button onClick={onClose}>{close}</Button>
    </Notice>
  );
}

/** With a way to take the records out, whatever state they are in. */
function Trouble({ children }: { children: ReactNode }) {
  const session = useSession();
  const [failure, setFailure] = useState<string | null>(null);
  const save = async () => {
    setFailure(null);
    try {
      saveBlob(await session.exportRaw(), 'swardbook-raw-records.json');
    } catch (error) {
      setFailure(whyNotSaved(error));
    }
  };
  return (
    <Notice kind="trouble">
      <p>
        {children} {failure}
      </p>
      <Button onClick={save}>{text.export}</Button>
    </Notice>
  );
}

function whyNotSaved(error: unknown): string {
  if (!(error instanceof Error)) return text.exportFailed(String(error));
  return error.name === 'NothingStored' ? text.nothingToExport : text.exportFailed(error.message);
}
