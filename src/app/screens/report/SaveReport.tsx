import { useState } from 'react';
import { formatBytes } from '../../../core/text/format.ts';
import { reportText } from '../../../core/text/report.ts';
import { Button } from '../../components/Button.tsx';
import { Notice } from '../../components/Notice.tsx';
import { saveBlob } from '../../components/saveBlob.ts';
import type { ReportPaperProps } from './paper/ReportPaper.tsx';
import styles from './ReportScreen.module.css';

const text = reportText.screen;

type Told =
  | { readonly state: 'saving' }
  | { readonly state: 'saved'; readonly name: string; readonly bytes: number }
  | { readonly state: 'failed'; readonly reason: string };

/** Prints the copy, or saves it as one file. */
export function SaveReport({ paper, ready }: { paper: ReportPaperProps; ready: boolean }) {
  const [told, setTold] = useState<Told | null>(null);
  const save = async () => {
    setTold({ state: 'saving' });
    try {
      const { reportFile } = await import('./paper/reportFile.tsx');
      const file = reportFile(paper);
      const { code } = paper.report.trial;
      const name = `${text.fileName(code, text.fileKinds[paper.length])}.html`;
      saveBlob(file, name);
      setTold({ state: 'saved', name, bytes: file.size });
    } catch (error) {
      setTold({ state: 'failed', reason: error instanceof Error ? error.message : String(error) });
    }
  };
  return (
    <div className={styles.actions}>
      <Button look="main" disabled={!ready} onClick={() => window.print()}>
        {text.print}
      </Button>
      <Button disabled={!ready || told?.state === 'saving'} onClick={() => void save()}>
        {text.saveHtml}
      </Button>
      {told?.state === 'saving' && <p role="status">{text.saving}</p>}
      {told?.state === 'saved' && <Notice>{text.saved(told.name, formatBytes(told.bytes))}</Notice>}
      {told?.state === 'failed' && <Notice kind="trouble">{text.saveFailed(told.reason)}</Notice>}
    </div>
  );
}
