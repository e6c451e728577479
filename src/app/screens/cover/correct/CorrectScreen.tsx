import { type KeyboardEvent, useCallback, useEffect, useMemo, useState } from 'react';
import type { PhotoPoint } from '../../../../core/geometry/points.ts';
import { correct } from '../../../../core/text/correct.ts';
import { LiveMaskLayer } from '../../../canvas/LiveMaskLayer.tsx';
import { Minimap } from '../../../canvas/Minimap.tsx';
import { PhotoStage } from '../../../canvas/PhotoStage.tsx';
import type { MaskStyle } from '../../../canvas/paintMask.ts';
import { useCommands } from '../../../commands/registry.tsx';
import { Button } from '../../../components/Button.tsx';
import { ClassSwatch } from '../../../components/ClassSwatch.tsx';
import { CommandButton } from '../../../components/CommandButton.tsx';
import { CoverBar, coverSentence } from '../../../components/CoverBar.tsx';
import { Icon } from '../../../components/Icon.tsx';
import { shortName } from '../../../components/shortName.ts';
import { usePreference } from '../../../components/usePreference.ts';
import { type Correcting, openCorrecting } from '../../../session/correcting.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import { useObservable, usePart } from '../../../session/useSession.tsx';
import coverStyles from '../CoverScreen.module.css';
import { middleOf, moveByArrow } from '../moveByArrow.ts';
import { PictureState } from '../PictureState.tsx';
import { useOverlay } from '../useOverlay.ts';
import { usePhotoStage } from '../usePhotoStage.ts';
import { usePhotosOfDate } from '../usePhotosOfDate.ts';
import { ComputedStage } from './ComputedStage.tsx';
import { CorrectPanel } from './CorrectPanel.tsx';
import styles from './CorrectScreen.module.css';
import { useCorrectCommands } from './correctCommands.ts';
import { MagnifiedPlace } from './MagnifiedPlace.tsx';
import { ToolLayer } from './ToolLayer.tsx';
import { useLooks } from './useLooks.ts';
import { useTools } from './useTools.ts';
import { useTreatmentShares } from './useTreatmentShares.ts';

interface CorrectScreenProps {
  readonly photo: PhotoSummary;
  readonly onOpen: (photoId: string) => void;
  readonly onDone: () => void;
}

/** From this many device pixels to a photo pixel on, classes are told apart by outline and pattern as well. */
const SIGNS_FROM_SCALE = 4;
const isText = (value: unknown): value is string => typeof value === 'string';

/** Correcting the classes of one photo by hand. */
export function CorrectScreen(props: CorrectScreenProps) {
  const { id } = props.photo;
  const correcting = usePart(useMemo(() => openCorrecting(id), [id]));
  return correcting ? (
    <Correct key={id} {...props} correcting={correcting} />
  ) : (
    <p className={coverStyles.gone} role="status">
      {correct.opening}
    </p>
  );
}

function Correct({ photo, correcting, onOpen, onDone }: CorrectScreenProps & { correcting: Correcting }) {
  const state = useObservable(correcting.state);
  const { id, name } = photo;
  const { stage, surface, picture, levels, size, viewing } = usePhotoStage(photo);
  const { classes, phase } = state;
  const overlay = useOverlay(classes);
  const looks = useLooks();
  const tools = useTools({
    correcting,
    photo: size,
    view: viewing.view,
    millimetresPerPixel: correcting.area?.millimetresPerPixel ?? null,
  });
  const names = useMemo(() => classes.map((one) => shortName(one.name)), [classes]);
  const [by, setBy] = usePreference('plan.signature', '', isText);
  useEffect(() => {
    correcting.by = by.trim() || null;
  }, [correcting, by]);
  const [said, setSaid] = useState('');

  const { photos, neighbours } = usePhotosOfDate(photo.ratingDate, id);
  const treatments = useTreatmentShares(correcting, photos);

  const commands = useCorrectCommands({
    correcting,
    state,
    tools,
    looks,
    classes,
    viewing,
    surface,
    neighbours,
    onOpen,
    onDone,
  });
  useCommands(commands.all);

  const onKey = (event: KeyboardEvent): boolean => {
    const { view } = viewing;
    if (!view || !surface || tools.tool === 'move' || event.ctrlKey || event.metaKey || event.altKey)
      return false;
    const middle = middleOf(view, surface);
    const next = moveByArrow(event, view, surface, viewing.change, (right, down) =>
      tools.step(right, down, middle),
    );
    if (next) {
      setSaid(correct.cursorAt(Math.round(next[0]), Math.round(next[1])));
      return true;
    }
    if (event.key !== 'Enter') return false;
    const { at: placed, byKeys } = tools.place.get();
    const place = placed && byKeys ? placed : tools.step(0, 0, middle);
    const [x, y] = place.map(Math.round) as [number, number];
    const corners = tools.outline.get().length;
    tools.applyAtCursor(place, event.shiftKey);
    if (tools.tool === 'outline' && tools.outline.get().length > corners) {
      setSaid(correct.cornerAt(corners + 1, x, y));
    } else setSaid(correct.painted(names[tools.label - 1] ?? correct.asComputed, x, y));
    return true;
  };
  const onPoint = useCallback(
    (place: PhotoPoint | null) => tools.place.set({ at: place, byKeys: false }),
    [tools.place],
  );
  const onPainted = useCallback(
    (listener: Parameters<Correcting['onPainted']>[0]) => correcting.onPainted(listener),
    [correcting],
  );

  const { view } = viewing;
  const mask = phase === 'ready' ? correcting.mask : null;
  const close = (view?.scale ?? 0) * (surface?.pixelRatio ?? 1) >= SIGNS_FROM_SCALE;
  const automatic = mask?.automatic.labels ?? null;
  const { shown, patterns } = overlay.style;
  const style = useMemo<MaskStyle>(
    () => ({
      classes,
      shown,
      patterns: patterns || close,
      outlines: looks.look === 'outlines' || (close && looks.look === 'classes'),
      fills: looks.look !== 'outlines',
      unlike: looks.look === 'changes' ? automatic : null,
    }),
    [classes, shown, patterns, close, looks.look, automatic],
  );
  const plainStyle = useMemo(() => ({ classes, shown, patterns }), [classes, shown, patterns]);
  const isBare = looks.bare || looks.look === 'photo';
  const opacity = isBare
    ? 0
    : looks.look === 'outlines'
      ? 1
      : looks.look === 'changes'
        ? 0.8
        : overlay.opacity;

  return (
    <div className={coverStyles.screen}>
      <div className={coverStyles.left}>
        <div
          className={looks.beside ? `${coverStyles.stage} ${styles.besides}` : coverStyles.stage}
          style={{ aspectRatio: `${size.width} / ${size.height}` }}
        >
          {looks.beside && (
            <ComputedStage
              label={correct.automaticStage(name)}
              {...{ levels, view, viewing, surface }}
              mask={mask?.automatic ?? null}
              style={plainStyle}
              opacity={isBare ? 0 : overlay.opacity}
            />
          )}
          <PhotoStage
            stage={stage}
            surface={surface}
            label={correct.stage(name)}
            photo={levels}
            view={view}
            fitted={viewing.fitted}
            changeView={viewing.change}
            mask={null}
            maskStyle={plainStyle}
            maskOpacity={0}
            onPoint={onPoint}
            paint={tools.gestures}
            onKey={onKey}
          >
            {mask && view && surface && levels && (
              <>
                <LiveMaskLayer
                  surface={surface}
                  view={view}
                  mask={mask.effective}
                  style={style}
                  opacity={opacity}
                  onPainted={onPainted}
                />
                <ToolLayer tools={tools} view={view} surface={surface} preview={state.preview} />
                {!viewing.fitted && (
                  <Minimap
                    photo={levels}
                    view={view}
                    surface={surface}
                    title={correct.map}
                    changeView={viewing.change}
                  />
                )}
                {looks.magnifier && (
                  <MagnifiedPlace
                    tools={tools}
                    middle={surface.width / 2}
                    {...{ levels, view, style }}
                    mask={isBare ? null : mask.effective}
                    pixelRatio={surface.pixelRatio}
                  />
                )}
              </>
            )}
            <PictureState picture={picture} name={name} />
            {state.busy && <p className={coverStyles.under}>{correct.working}</p>}
          </PhotoStage>
        </div>
        {state.covers ? (
          <div className={coverStyles.bar}>
            <CoverBar classes={classes} coverFraction={state.covers.corrected} />
          </div>
        ) : (
          <div className={coverStyles.noBar} />
        )}
        <fieldset className={styles.classBar}>
          <legend className="visually-hidden">{correct.classes}</legend>
          {commands.paints.map((command, index) => (
            <Button key={command.id} look="quiet" aria-pressed={command.isOn} onClick={command.run}>
              {classes[index] ? (
                <ClassSwatch coverClass={classes[index]} index={index} small />
              ) : (
                <Icon name="eraser" />
              )}
              {names[index] ?? correct.asComputed}
            </Button>
          ))}
        </fieldset>
        <div className={`${coverStyles.tools} ${styles.tools}`} role="toolbar" aria-label={correct.tools}>
          <CommandButton command={commands.brush} icon="brush" words={correct.brush} />
          <CommandButton command={commands.outline} icon="outline" words={correct.outline} />
          <CommandButton command={commands.patch} icon="fill" words={correct.patch} />
          <CommandButton command={commands.likeness} icon="likeness" words={correct.likeness} />
          <CommandButton command={commands.move} icon="move" />
          <span className={coverStyles.gap} />
          <CommandButton command={commands.undo} icon="undo" />
          <CommandButton command={commands.redo} icon="redo" />
          <span className={coverStyles.spring} />
          <span className={coverStyles.zoom}>
            <CommandButton command={commands.zoomOut} icon="minus" />
            <CommandButton command={commands.zoomIn} icon="plus" />
          </span>
          <CommandButton command={commands.fit} icon="fit" />
          <CommandButton command={commands.magnifier} icon="magnifier" />
          <CommandButton command={commands.beside} icon="beside" />
          <Button
            look="quiet"
            aria-label={correct.bare}
            aria-pressed={looks.bare}
            title={correct.bare}
            onPointerDown={() => looks.setBare(true)}
            onPointerUp={() => looks.setBare(false)}
            onPointerLeave={() => looks.setBare(false)}
            onKeyDown={({ key }) => (key === ' ' || key === 'Enter') && looks.setBare(true)}
            onKeyUp={() => looks.setBare(false)}
            onBlur={() => looks.setBare(false)}
          >
            <Icon name="layers" />
          </Button>
        </div>
      </div>
      <CorrectPanel
        correcting={correcting}
        state={state}
        photo={photo}
        tools={tools}
        looks={looks}
        names={names}
        by={by}
        onBy={setBy}
        shares={treatments.shares}
        treatmentsShown={treatments.shown}
        onShowTreatments={treatments.show}
        onDone={onDone}
      />
      <p className="visually-hidden" role="status">
        {said}
      </p>
      <p className="visually-hidden" role="status">
        {state.covers && state.unstored === 0 ? coverSentence(classes, state.covers.corrected) : ''}
      </p>
    </div>
  );
}
