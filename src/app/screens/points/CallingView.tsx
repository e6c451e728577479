import { type ReactNode, useCallback, useRef } from 'react';
import { callProgress, pointShown } from '../../../core/point-grid/callSession.ts';
import { gapRuleForPointsText } from '../../../core/text/points.ts';
import { pointsText } from '../../../core/text/pointsScreen.ts';
import type { CoverClass } from '../../../core/trial/coverClass.ts';
import type { GapRule } from '../../../core/trial/trial.ts';
import { useSurface } from '../../canvas/useSurface.ts';
import { useCommands } from '../../commands/registry.tsx';
import { Button } from '../../components/Button.tsx';
import { ClassSwatch } from '../../components/ClassSwatch.tsx';
import { Icon } from '../../components/Icon.tsx';
import { shortName } from '../../components/shortName.ts';
import { usePreference } from '../../components/usePreference.ts';
import type { PointCalling } from '../../session/pointCalling.ts';
import { useObservable } from '../../session/useSession.tsx';
import styles from './CallingView.module.css';
import { PointCanvas, PointMark } from './PointCanvas.tsx';
import { useCallCommands } from './useCallCommands.ts';
import type { Picture } from './usePictures.ts';

const text = pointsText.calling;
/** Ground across the shorter side of the stage at the start: a few tufts, so that leaves can be told. */
const ACROSS_MM = 60;
/** The same for a photo without a scale, in its pixels. */
const ACROSS_PX = 96;
const LARGEST_SCALE = 32;

interface CallingViewProps {
  readonly calling: PointCalling;
  readonly picture: Picture;
  /** Null where the photo has no scale. */
  readonly millimetresPerPixel: number | null;
  readonly classes: readonly CoverClass[];
  readonly gapRule: GapRule;
  /** Which photo of how many, from 1. */
  readonly place: readonly [index: number, of: number];
  readonly pausedHint: string;
  /** Shown when every point has been called. */
  readonly done: ReactNode;
  readonly failed: ReactNode;
  readonly onLeave: () => void;
}

const isFactor = (value: unknown): value is number =>
  typeof value === 'number' && value >= 0.05 && value <= 20;

/** One point after the other: the ground under the mark, and a button for each class. Nothing else is shown. */
export function CallingView(props: CallingViewProps) {
  const { calling, picture, millimetresPerPixel, classes, gapRule, place, pausedHint, onLeave } = props;
  const session = useObservable(calling.session);
  const unstored = useObservable(calling.unstored);
  const stage = useRef<HTMLDivElement>(null);
  const surface = useSurface(stage);
  const [factor, setFactor] = usePreference('points.magnification', 1, isFactor);
  const zoom = useCallback(
    (by: number) => setFactor(Math.min(20, Math.max(0.05, factor * by))),
    [factor, setFactor],
  );
  const visible = picture.state === 'ready';
  const commands = useCallCommands({ calling, classes, zoom, onLeave, visible });
  useCommands(commands.all);
  const shown = pointShown(session);
  const { done, all } = callProgress(session);
  const index = Math.min(session.position + 1, all);
  const across = millimetresPerPixel === null ? ACROSS_PX : ACROSS_MM / millimetresPerPixel;
  const side = surface ? Math.min(surface.width, surface.height) : 1;
  const scale = Math.min(LARGEST_SCALE, (factor * side) / across);
  const isOver = shown === null;
  return (
    <section className={styles.screen} aria-label={text.label}>
      <header className={styles.head}>
        <Button look="quiet" aria-label={text.leave} onClick={onLeave}>
          <Icon name="back" />
        </Button>
        <div className={styles.where}>
          <h1>{text.point(index, all)}</h1>
          <span>{text.photo(...place)}</span>
        </div>
        <span className={styles.zoom}>
          <Button look="quiet" aria-label={text.wider} onClick={commands.wider.run}>
            <Icon name="minus" />
          </Button>
          <Button look="quiet" aria-label={text.closer} onClick={commands.closer.run}>
            <Icon name="plus" />
          </Button>
        </span>
        <Button
          look="quiet"
          disabled={isOver}
          onClick={() => calling.act({ type: session.paused ? 'resume' : 'pause' })}
        >
          {session.paused ? text.resume : text.pause}
        </Button>
      </header>
      <progress className={styles.progress} max={all} value={done} aria-label={text.point(done, all)} />
      <div
        ref={stage}
        className={styles.stage}
        role="img"
        aria-label={text.stage(index, all)}
        data-point={shown?.id}
      >
        {picture.state === 'ready' && surface && shown && !session.paused && (
          <>
            <PointCanvas picture={picture.picture} at={shown.at} scale={scale} surface={surface} />
            <PointMark surface={surface} scale={scale} />
          </>
        )}
        {picture.state === 'loading' && !isOver && <p className={styles.words}>{text.loading}</p>}
      </div>
      {picture.state === 'failed' && !isOver ? (
        <div className={styles.over}>
          <p>{text.failed}</p>
          {props.failed}
        </div>
      ) : isOver ? (
        <div className={styles.over}>{props.done}</div>
      ) : session.paused ? (
        <div className={styles.over}>
          <strong>{text.paused}</strong>
          <p>{pausedHint}</p>
          <div className={styles.ways}>
            <Button look="main" large onClick={() => calling.act({ type: 'resume' })}>
              {text.resume}
            </Button>
            <Button large onClick={onLeave}>
              {text.leave}
            </Button>
          </div>
        </div>
      ) : null}
      {unstored > 0 && (
        <div className={styles.unstored} role="alert">
          <p>{text.unstored(unstored)}</p>
          <Button onClick={() => void calling.store()}>{text.storeAgain}</Button>
        </div>
      )}
      <p className={styles.rule}>{gapRuleForPointsText(gapRule)}</p>
      <fieldset className={styles.pad} disabled={isOver || session.paused || !visible}>
        <legend className="visually-hidden">{text.classes}</legend>
        {classes.map((coverClass, order) => (
          <button
            key={coverClass.id}
            type="button"
            className={styles.call}
            aria-keyshortcuts={coverClass.key}
            onClick={commands.byClass[order]!.run}
          >
            <ClassSwatch coverClass={coverClass} index={order} />
            {shortName(coverClass.name)}
          </button>
        ))}
        <button type="button" className={styles.call} aria-keyshortcuts="." onClick={commands.cannotTell.run}>
          <span className={styles.key} aria-hidden="true">
            ?
          </span>
          {text.cannotTell}
        </button>
        <button
          type="button"
          className={`${styles.call} ${styles.back}`}
          aria-keyshortcuts="Backspace"
          disabled={session.position === 0}
          onClick={commands.back.run}
        >
          <Icon name="undo" />
          {text.back}
        </button>
      </fieldset>
    </section>
  );
}
