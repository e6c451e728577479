import { coverByGroup } from '../../../core/cover/coverByGroup.ts';
import { app } from '../../../core/text/app.ts';
import { formatPercent } from '../../../core/text/format.ts';
import { figureGapRuleText } from '../../../core/text/gapRule.ts';
import type { CoverClass } from '../../../core/trial/coverClass.ts';
import { ClassSwatch } from '../../components/ClassSwatch.tsx';
import type { Figure, PhotoSummary } from '../../session/session.ts';
import styles from './Figures.module.css';
import type { Overlay } from './useOverlay.ts';

interface FiguresProps {
  readonly photo: PhotoSummary;
  readonly classes: readonly CoverClass[];
  readonly overlay: Overlay;
  /** Whether the figures belong to other settings than those on screen. */
  readonly stale: boolean;
  /** Figures without the statement, while something else needs the room. */
  readonly brief: boolean;
}

/** Cover by class in large figures, with what the figures are; each class can be taken off the photo. */
export function Figures({ photo, classes, overlay, stale, brief }: FiguresProps) {
  const { figure, frame, work } = photo;
  return (
    <section className={styles.figures} aria-label={app.cover.figureTitle}>
      <ul className={stale ? `${styles.list} ${styles.stale}` : styles.list}>
        {classes.map((coverClass, index) => {
          const share = figure?.cover.find(({ classId }) => classId === coverClass.id);
          const [name, explained] = splitName(coverClass.name);
          return (
            <li key={coverClass.id}>
              <label className={styles.class}>
                <input
                  type="checkbox"
                  checked={overlay.isShown(coverClass.id)}
                  onChange={() => overlay.toggle(coverClass.id)}
                  aria-label={app.cover.classShown(coverClass.name)}
                />
                <ClassSwatch coverClass={coverClass} index={index} hollow={!overlay.isShown(coverClass.id)} />
                <span className={styles.className}>
                  {name}
                  {explained && <small>{explained}</small>}
                </span>
              </label>
              <span className={styles.figure}>
                {share ? (
                  <>
                    {formatPercent(share.coverFraction)}
                    <small> {app.cover.percentUnit}</small>
                  </>
                ) : (
                  '–'
                )}
              </span>
            </li>
          );
        })}
      </ul>
      {figure && <GroupSums figure={figure} classes={classes} />}
      {brief ? null : figure ? (
        <p className={styles.statement}>
          {stale || work ? <b>{work === 'paused' ? app.cover.paused : app.cover.measuringAgain} </b> : null}
          <b>{app.cover.estimate}</b>
          {'. '}
          {app.cover.figureTitle}
          {'. '}
          {frame ? app.cover.target : app.cover.wholePhotoTarget} {app.cover.noInterval}{' '}
          {figure.settings.gapRule && `${figureGapRuleText(figure)} `}
          {app.cover.caution}
        </p>
      ) : (
        <p className={styles.statement}>{waitingWords(work)}</p>
      )}
    </section>
  );
}

/** What reports say where several classes are added up, e.g. seedheads to their plant. */
function GroupSums({ figure, classes }: { figure: Figure; classes: readonly CoverClass[] }) {
  const sums = coverByGroup(classes, figure.cover).filter((group) => group && group.members.length > 1);
  if (sums.length === 0) return null;
  return (
    <ul className={styles.sums} aria-label={app.cover.groups}>
      {sums.map((sum) => (
        <li key={sum!.group}>
          <span>
            {app.cover.groupSum(sum!.members.map(({ coverClass }) => splitName(coverClass.name)[0]))}
          </span>
          <b>
            {formatPercent(sum!.coverFraction)} {app.cover.percentUnit}
          </b>
        </li>
      ))}
    </ul>
  );
}

function waitingWords(work: PhotoSummary['work']): string {
  switch (work) {
    case 'running':
      return app.cover.measuringNow;
    case 'waiting':
      return app.cover.waiting;
    case 'paused':
      return app.cover.paused;
    default:
      return app.cover.notMeasured;
  }
}

/** "Bare ground (soil, thatch)" as its name and what it holds. */
function splitName(name: string): readonly [string, string | null] {
  const match = /^(.*?)\s*\((.*)\)$/.exec(name);
  return match ? [match[1]!, match[2]!] : [name, null];
}
