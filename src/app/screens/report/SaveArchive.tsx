import { useEffect, useId, useState } from 'react';
import { archiveText } from '../../../core/text/archive.ts';
import { Button } from '../../components/Button.tsx';
import { Notice } from '../../components/Notice.tsx';
import { openSaveTarget } from '../../session/archive/saveTarget.ts';
import type { Archive, ExportOutcome } from '../../session/archive.ts';
import { useObservable } from '../../session/useSession.tsx';
import styles from './FilesPanel.module.css';
import { WorkProgress } from './WorkProgress.tsx';

const text = archiveText.save;

/** A value of the choice that no rating date has. */
const WHOLE = 'whole';
const UNDATED = 'undated';

/** Saves the trial, or a rating date of it, as one file. */
export function SaveArchive({ archive }: { archive: Archive }) {
  const { dates, work } = useObservable(archive.state);
  const [what, setWhat] = useState(WHOLE);
  const [withLocations, setWithLocations] = useState(true);
  const [told, setTold] = useState<ExportOutcome | null>(null);
  const code = useTrialCode(archive);
  const id = useId();
  const all = dates.reduce((sum, { photos }) => sum + photos, 0);
  const onlyHere = dates.reduce((sum, date) => sum + date.onlyHere, 0);
  const save = async () => {
    setTold(null);
    const ratingDate = what === UNDATED ? null : what;
    const ending = what === WHOLE ? '' : `-${what}`;
    const target = await openSaveTarget(
      `${code ?? 'photos'}-${text.fileName}${ending}.zip`,
      archiveText.title,
    );
    if (!target) return;
    const request = what === WHOLE ? { withLocations } : { withLocations, ratingDate };
    setTold(await archive.exportTrial(target, request));
  };
  return (
    <section className={styles.card} aria-labelledby={`${id}-title`}>
      <div className={styles.head}>
        <h3 id={`${id}-title`}>{text.title}</h3>
        <p className={styles.intro}>{text.intro}</p>
      </div>
      <p className={styles.state}>{all === 0 ? text.nothing : text.onlyHere(onlyHere)}</p>
      <div className={styles.field}>
        <label htmlFor={`${id}-what`}>{text.what}</label>
        <select id={`${id}-what`} value={what} onChange={(event) => setWhat(event.target.value)}>
          <option value={WHOLE}>{text.whole(all)}</option>
          {dates.length > 1 &&
            dates.map(({ ratingDate, photos }) => (
              <option key={ratingDate} value={ratingDate ?? UNDATED}>
                {text.date(ratingDate, photos)}
              </option>
            ))}
        </select>
      </div>
      <div className={styles.check}>
        <label>
          <input
            type="checkbox"
            checked={withLocations}
            aria-describedby={`${id}-locations`}
            onChange={(event) => setWithLocations(event.target.checked)}
          />
          <span>{text.locations}</span>
        </label>
        <p id={`${id}-locations`} className={styles.hint}>
          {text.locationsHint}
        </p>
      </div>
      {work?.kind === 'writing' ? (
        <WorkProgress
          label={text.label}
          words={text.progress(work.photosDone, work.photos)}
          done={work.photosDone}
          all={work.photos}
          onCancel={() => archive.cancel()}
        />
      ) : (
        <div className={styles.row}>
          <Button disabled={work !== null} onClick={() => void save()}>
            {text.run}
          </Button>
        </div>
      )}
      {told && <SavedNotice outcome={told} />}
    </section>
  );
}

function SavedNotice({ outcome }: { outcome: ExportOutcome }) {
  if (outcome.state === 'cancelled') return <Notice>{text.cancelled}</Notice>;
  if (outcome.state === 'failed') return <Notice kind="trouble">{text.failed(outcome.reason)}</Notice>;
  const { photos, bytes, placesTakenOut, withoutBytes, changed } = outcome.report;
  return (
    <>
      <Notice>
        <div className={styles.told}>
          <p>{text.done(photos, bytes)}</p>
          {placesTakenOut > 0 && <p>{text.placesTakenOut(placesTakenOut)}</p>}
        </div>
      </Notice>
      {withoutBytes.length + changed.length > 0 && (
        <Notice kind="trouble">
          <div className={styles.told}>
            {withoutBytes.length > 0 && <p>{text.withoutBytes(withoutBytes)}</p>}
            {changed.length > 0 && <p>{text.changed(changed)}</p>}
          </div>
        </Notice>
      )}
    </>
  );
}

/** The code of the trial, for names of files. */
export function useTrialCode(archive: Archive): string | null {
  const [code, setCode] = useState<string | null>(null);
  useEffect(() => {
    archive.trialCode().then(setCode, console.error);
  }, [archive]);
  return code;
}
