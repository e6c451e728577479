import { useId, useState } from 'react';
import { archiveText } from '../../../core/text/archive.ts';
import { RESULTS_CAUTION } from '../../../core/text/statisticsCommands.ts';
import { Button } from '../../components/Button.tsx';
import { Notice } from '../../components/Notice.tsx';
import { openSaveTarget } from '../../session/archive/saveTarget.ts';
import type { Archive } from '../../session/archive.ts';
import { useObservable } from '../../session/useSession.tsx';
import styles from './FilesPanel.module.css';
import { useTrialCode } from './SaveArchive.tsx';

const text = archiveText.tables;

/** Saves all tables of the trial for statistics software. */
export function SaveTables({ archive }: { archive: Archive }) {
  const { dates, work } = useObservable(archive.state);
  const [told, setTold] = useState<number | { readonly reason: string } | null>(null);
  const code = useTrialCode(archive);
  const id = useId();
  const save = async () => {
    setTold(null);
    const name = `${code ?? 'photos'}-${text.fileName}`;
    const target = await openSaveTarget(`${name}.zip`, text.title);
    if (target) setTold(await archive.saveTables(target, name.toLowerCase()));
  };
  return (
    <section className={styles.card} aria-labelledby={`${id}-title`}>
      <div className={styles.head}>
        <h3 id={`${id}-title`}>{text.title}</h3>
        <p className={styles.intro}>{text.intro}</p>
      </div>
      <div className={styles.row}>
        <Button disabled={work !== null || dates.length === 0} onClick={() => void save()}>
          {text.run}
        </Button>
      </div>
      {typeof told === 'number' && <Notice>{text.done(told)}</Notice>}
      {told !== null && typeof told === 'object' && (
        <Notice kind="trouble">{text.failed(told.reason)}</Notice>
      )}
      <p className={styles.hint}>{RESULTS_CAUTION}</p>
    </section>
  );
}
