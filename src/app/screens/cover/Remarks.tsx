import type { DoubtReason } from '../../../core/classifier/taughtDoubts.ts';
import { app } from '../../../core/text/app.ts';
import { doubtReasonText } from '../../../core/text/teaching.ts';
import { Button } from '../../components/Button.tsx';
import { Icon } from '../../components/Icon.tsx';
import { problemText } from '../../components/problemText.ts';
import type { PhotoSummary } from '../../session/session.ts';
import { useSession } from '../../session/useSession.tsx';
import styles from './Remarks.module.css';

/** What is to be borne in mind with this figure, or why there is none. */
export function Remarks({ photo }: { photo: PhotoSummary }) {
  const session = useSession();
  const { id, name, figure, work, problem } = photo;
  const flags = figure?.flags ?? [];
  const reasons = figure?.reasons ?? [];
  const nameOf = (classId: string) =>
    figure?.settings.classes.find(({ id: own }) => own === classId)?.name.replace(/\s*\(.*\)$/, '') ??
    classId;
  const idle = work === 'failed' || (work === null && figure === null);
  if (flags.length === 0 && !problem && !idle) return null;
  return (
    <div className={styles.remarks}>
      {problem && (
        <p className={styles.trouble} role="alert">
          <Icon name="trouble" />
          <span>
            <b>{name}</b> {problemText(problem)}
          </span>
        </p>
      )}
      {flags.map((flag) => (
        <p key={flag} className={styles.flag}>
          <Icon name="trouble" />
          <span>{wordsOf(flag, reasons, nameOf)}</span>
        </p>
      ))}
      {idle && <Button onClick={() => session.retry([id])}>{app.cover.measureNow}</Button>}
    </div>
  );
}

/** A flag by the reasons a taught model gave for it, else in general words. */
function wordsOf(
  flag: keyof typeof app.flags,
  reasons: readonly DoubtReason[],
  nameOf: (classId: string) => string,
): string {
  const own = reasons.filter((reason) => reason.flag === flag);
  return own.length > 0 ? own.map((reason) => doubtReasonText(reason, nameOf)).join(' ') : app.flags[flag];
}
