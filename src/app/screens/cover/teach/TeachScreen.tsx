import { type KeyboardEvent, useCallback, useEffect, useMemo, useState } from 'react';
import type { PhotoPoint } from '../../../../core/geometry/points.ts';
import { app } from '../../../../core/text/app.ts';
import { teach } from '../../../../core/text/teach.ts';
import type { CoverClass } from '../../../../core/trial/coverClass.ts';
import { PhotoStage } from '../../../canvas/PhotoStage.tsx';
import { useCommands } from '../../../commands/registry.tsx';
import { Button } from '../../../components/Button.tsx';
import { ClassSwatch } from '../../../components/ClassSwatch.tsx';
import { CommandButton } from '../../../components/CommandButton.tsx';
import { CoverBar, coverSentence } from '../../../components/CoverBar.tsx';
import { shortName } from '../../../components/shortName.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import type { Teaching, TeachingState } from '../../../session/teaching.ts';
import { useObservable } from '../../../session/useSession.tsx';
import coverStyles from '../CoverScreen.module.css';
import { middleOf, moveByArrow } from '../moveByArrow.ts';
import { PictureState } from '../PictureState.tsx';
import { useOverlay } from '../useOverlay.ts';
import { usePhotoStage } from '../usePhotoStage.ts';
import { usePhotosOfDate } from '../usePhotosOfDate.ts';
import { StrokeLayer } from './StrokeLayer.tsx';
import { TeachPanel } from './TeachPanel.tsx';
import styles from './TeachScreen.module.css';
import { TeachStrip } from './TeachStrip.tsx';
import { useTeachCommands } from './teachCommands.ts';
import { useBrush } from './useBrush.ts';
import { useTeaching } from './useTeaching.ts';
import { useTrialPlots } from './useTrialPlots.ts';

interface TeachScreenProps {
  /** The photo painted on; its rating date is what is taught. */
  readonly photo: PhotoSummary;
  readonly onOpen: (photoId: string) => void;
  readonly onDone: () => void;
}

/** What classes are called while painting. */
const shortNameIn =
  (classes: readonly CoverClass[]) =>
  (classId: string): string =>
    shortName(classes.find(({ id }) => id === classId)?.name ?? classId);

/** Painting strokes on the photos of a rating date while they follow. */
export function TeachScreen(props: TeachScreenProps) {
  const teaching = useTeaching(props.photo.ratingDate);
  return teaching ? (
    <Teach {...props} teaching={teaching} />
  ) : (
    <p className={coverStyles.gone} role="status">
      {teach.opening}
    </p>
  );
}

function Teach({ photo, teaching, onOpen, onDone }: TeachScreenProps & { teaching: Teaching }) {
  const state = useObservable(teaching.state);
  const { id, name, classes } = photo;
  const { photos, neighbours } = usePhotosOfDate(teaching.ratingDate, id);
  const plots = useTrialPlots();
  const nameOf = useMemo(() => shortNameIn(classes), [classes]);
  useEffect(() => teaching.open(id), [teaching, id]);
  const { stage, surface, picture, levels, size, viewing } = usePhotoStage(photo);
  const overlay = useOverlay(classes);
  const [classId, setClassId] = useState(classes[0]!.id);
  const [under, setUnder] = useState<PhotoPoint | null>(null);
  const [said, setSaid] = useState('');
  const own = state.strokes.get(id) ?? NO_STROKES;
  const brush = useBrush({ teaching, own, classId, photo: size, view: viewing.view });
  const isOpen = state.photoId === id;
  const applied = isOpen && state.lesson?.ok ? state.applied : null;

  const commands = useTeachCommands({
    teaching,
    state,
    brush,
    classes,
    classId,
    setClassId,
    viewing,
    surface,
    overlay,
    neighbours,
    onOpen,
    onDone,
  });
  useCommands(commands.all);

  const onKey = (event: KeyboardEvent): boolean => {
    const { view } = viewing;
    if (!view || !surface || brush.tool === 'move' || event.ctrlKey || event.metaKey || event.altKey)
      return false;
    const middle = middleOf(view, surface);
    const next = moveByArrow(event, view, surface, viewing.change, (right, down) =>
      brush.step(right, down, middle),
    );
    if (next) {
      setSaid(teach.cursorAt(Math.round(next[0]), Math.round(next[1])));
      return true;
    }
    if (event.key === 'Enter') {
      const place = brush.cursor ?? brush.step(0, 0, middle);
      brush.stamp(place);
      if (brush.tool === 'brush') {
        setSaid(teach.stamped(nameOf(classId), Math.round(place[0]), Math.round(place[1])));
      }
      return true;
    }
    return false;
  };
  const onPoint = useCallback((place: PhotoPoint | null) => setUnder(place), []);

  return (
    <div className={coverStyles.screen}>
      <div className={coverStyles.left}>
        <div className={coverStyles.stage} style={{ aspectRatio: `${size.width} / ${size.height}` }}>
          <PhotoStage
            stage={stage}
            surface={surface}
            label={teach.stage(name)}
            photo={levels}
            view={viewing.view}
            fitted={viewing.fitted}
            changeView={viewing.change}
            mask={applied?.placed.mask ?? null}
            maskPlace={applied?.placed ?? null}
            maskStyle={overlay.style}
            maskOpacity={overlay.on ? overlay.opacity : 0}
            onPoint={onPoint}
            paint={brush.gestures}
            onKey={onKey}
          >
            {levels && viewing.view && surface && (
              <StrokeLayer
                surface={surface}
                view={viewing.view}
                classes={classes}
                strokes={own}
                draft={brush.draft}
                fading={brush.erased}
                at={brush.tool === 'move' ? null : (brush.cursor ?? under)}
                radiusPx={brush.radiusPx}
                byKeys={brush.cursor !== null}
              />
            )}
            <PictureState picture={picture} name={name} />
            {levels && !state.ready && <p className={styles.reading}>{teach.readingPhotos}</p>}
          </PhotoStage>
        </div>
        {applied ? (
          <div className={state.behind ? `${coverStyles.bar} ${coverStyles.stale}` : coverStyles.bar}>
            <CoverBar classes={classes} coverFraction={applied.coverFraction} />
          </div>
        ) : (
          <div className={coverStyles.noBar} />
        )}
        <fieldset className={styles.classBar}>
          <legend className="visually-hidden">{teach.classes}</legend>
          {commands.paintClasses.map((command, index) => (
            <Button key={command.id} look="quiet" aria-pressed={command.isOn} onClick={command.run}>
              <ClassSwatch coverClass={classes[index]!} index={index} small />
              {shortName(classes[index]!.name)}
            </Button>
          ))}
        </fieldset>
        <div className={coverStyles.tools} role="toolbar" aria-label={teach.tools}>
          <CommandButton command={commands.brush} icon="brush" words={teach.brush} />
          <CommandButton command={commands.eraser} icon="eraser" words={teach.eraser} />
          <CommandButton command={commands.move} icon="move" words={teach.move} />
          <span className={coverStyles.gap} />
          <CommandButton command={commands.undo} icon="undo" />
          <CommandButton command={commands.redo} icon="redo" />
          <span className={coverStyles.spring} />
          <span className={coverStyles.zoom}>
            <CommandButton command={commands.zoomOut} icon="minus" />
            <CommandButton command={commands.zoomIn} icon="plus" />
          </span>
          <CommandButton command={commands.fit} icon="fit" />
          <CommandButton command={commands.overlay} icon="layers" words={app.cover.overlayWord} />
        </div>
        <TeachStrip
          photos={photos}
          plots={plots}
          state={state}
          classes={classes}
          nameOf={nameOf}
          onOpen={onOpen}
        />
      </div>
      <TeachPanel
        teaching={teaching}
        state={state}
        photo={photo}
        photos={photos}
        plots={plots}
        classes={classes}
        classId={classId}
        onClass={setClassId}
        brush={brush}
        nameOf={nameOf}
        onQueued={(count) => setSaid(teach.queued(count))}
        onDone={onDone}
      />
      <p className="visually-hidden" role="status">
        {said}
      </p>
      <p className="visually-hidden" role="status">
        {applied && state.whole && !state.behind ? coverSentence(classes, applied.coverFraction) : ''}
      </p>
    </div>
  );
}

const NO_STROKES: NonNullable<ReturnType<TeachingState['strokes']['get']>> = [];
