import { type KeyboardEvent, useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { type PhotoPoint, screenPoint } from '../../../../core/geometry/points.ts';
import { app } from '../../../../core/text/app.ts';
import { correct } from '../../../../core/text/correct.ts';
import { LiveMaskLayer } from '../../../canvas/LiveMaskLayer.tsx';
import { Magnifier } from '../../../canvas/Magnifier.tsx';
import { Minimap } from '../../../canvas/Minimap.tsx';
import { PhotoStage } from '../../../canvas/PhotoStage.tsx';
import type { MaskStyle } from '../../../canvas/paintMask.ts';
import { useSurface } from '../../../canvas/useSurface.ts';
import { panBy, photoToScreen, screenToPhoto } from '../../../canvas/view.ts';
import { useCommands } from '../../../commands/registry.tsx';
import { Button } from '../../../components/Button.tsx';
import { ClassSwatch } from '../../../components/ClassSwatch.tsx';
import { CommandButton } from '../../../components/CommandButton.tsx';
import { CoverBar, coverSentence } from '../../../components/CoverBar.tsx';
import { Icon } from '../../../components/Icon.tsx';
import { orderPhotos } from '../../../components/photoOrder.ts';
import { usePreference } from '../../../components/usePreference.ts';
import { type Correcting, openCorrecting } from '../../../session/correcting.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import { useObservable, usePart, usePhotos } from '../../../session/useSession.tsx';
import coverStyles from '../CoverScreen.module.css';
import { useOverlay } from '../useOverlay.ts';
import { usePhotoPicture } from '../usePhotoPicture.ts';
import { useView } from '../useView.ts';
import { CorrectPanel } from './CorrectPanel.tsx';
import styles from './CorrectScreen.module.css';
import { useCorrectCommands } from './correctCommands.ts';
import { ToolLayer } from './ToolLayer.tsx';
import { useLooks } from './useLooks.ts';
import { type Tools, useTools } from './useTools.ts';
import { useTreatmentCorrections } from './useTreatmentCorrections.ts';

interface CorrectScreenProps {
  readonly photo: PhotoSummary;
  readonly onOpen: (photoId: string) => void;
  readonly onDone: () => void;
}

/** From this many device pixels to a photo pixel on, classes are told apart by outline and pattern as well. */
const SIGNS_FROM_SCALE = 4;
/** How far an arrow key moves the cursor, in CSS pixels. */
const KEY_STEP_PX = 4;
const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
const isText = (value: unknown): value is string => typeof value === 'string';

/** "Bare ground (soil, thatch)" by its name alone. */
const shortName = ({ name }: { readonly name: string }) => name.replace(/\s*\(.*\)$/, '');

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
  const stage = useRef<HTMLDivElement>(null);
  const surface = useSurface(stage);
  const picture = usePhotoPicture(id);
  const levels = picture.state === 'ready' ? picture.levels : null;
  const size = useMemo(
    () => levels ?? { width: photo.widthPx ?? 1, height: photo.heightPx ?? 1 },
    [levels, photo.widthPx, photo.heightPx],
  );
  const viewing = useView(levels, surface, 0);
  const { classes, phase } = state;
  const overlay = useOverlay(classes);
  const looks = useLooks();
  const tools = useTools({
    correcting,
    photo: size,
    view: viewing.view,
    millimetresPerPixel: correcting.area?.millimetresPerPixel ?? null,
  });
  const names = useMemo(() => classes.map(shortName), [classes]);
  const [by, setBy] = usePreference('plan.signature', '', isText);
  useEffect(() => {
    correcting.by = by.trim() || null;
  }, [correcting, by]);
  const [said, setSaid] = useState('');

  const allPhotos = usePhotos();
  const photos = useMemo(
    () => orderPhotos(allPhotos, 'plot').filter(({ ratingDate }) => ratingDate === photo.ratingDate),
    [allPhotos, photo.ratingDate],
  );
  const at = photos.findIndex((one) => one.id === id);
  const neighbours = useMemo(
    () => ({ previousId: photos[at - 1]?.id ?? null, nextId: photos[at + 1]?.id ?? null }),
    [photos, at],
  );
  const treatments = useTreatments(correcting, photos);

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
    const middle = screenToPhoto(view, screenPoint(surface.width / 2, surface.height / 2));
    const arrow = ARROWS[event.key];
    if (arrow) {
      const px = (KEY_STEP_PX * (event.shiftKey ? 10 : 1)) / view.scale;
      const next = tools.step(arrow[0] * px, arrow[1] * px, middle);
      const [x, y] = photoToScreen(view, next);
      // the photo follows the cursor
      const back = (place: number, room: number) => Math.min(0, room - place) + Math.max(0, -place);
      viewing.change((last) => panBy(last, back(x, surface.width), back(y, surface.height)));
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
            {picture.state === 'loading' && <p className={coverStyles.loading}>{app.cover.loading}</p>}
            {picture.state === 'failed' && <p className={coverStyles.cannot}>{app.cover.cannotShow(name)}</p>}
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

interface ComputedStageProps {
  readonly label: string;
  readonly levels: Parameters<typeof PhotoStage>[0]['photo'];
  readonly view: Parameters<typeof PhotoStage>[0]['view'];
  readonly viewing: ReturnType<typeof useView>;
  readonly surface: ReturnType<typeof useSurface>;
  readonly mask: Parameters<typeof PhotoStage>[0]['mask'];
  readonly style: Parameters<typeof PhotoStage>[0]['maskStyle'];
  readonly opacity: number;
}

/** What was computed, moved and zoomed together with what is corrected. */
function ComputedStage({ label, levels, view, viewing, surface, mask, style, opacity }: ComputedStageProps) {
  const stage = useRef<HTMLDivElement>(null);
  return (
    <PhotoStage
      stage={stage}
      surface={surface}
      label={label}
      photo={levels}
      view={view}
      fitted={viewing.fitted}
      changeView={viewing.change}
      mask={mask}
      maskStyle={style}
      maskOpacity={opacity}
      onPoint={ignore}
    />
  );
}

const ignore = () => {};

interface MagnifiedPlaceProps extends Omit<Parameters<typeof Magnifier>[0], 'at' | 'side' | 'photo'> {
  readonly tools: Tools;
  readonly levels: Parameters<typeof Magnifier>[0]['photo'];
  /** In CSS pixels: the magnifier stands where the tool is not. */
  readonly middle: number;
}

function MagnifiedPlace({ tools, levels, middle, ...rest }: MagnifiedPlaceProps) {
  const { at } = useObservable(tools.place);
  if (!at) return null;
  const side = photoToScreen(rest.view, at)[0] < middle ? 'right' : 'left';
  return <Magnifier photo={levels} {...rest} at={at} side={side} />;
}

/** How much was corrected by treatment, under codes until the names are asked for, which is recorded. */
function useTreatments(correcting: Correcting, photos: readonly PhotoSummary[]) {
  const [shown, setShown] = useState(false);
  const [reviewed, setReviewed] = useState<ReadonlySet<string>>(new Set());
  useEffect(() => {
    let left = false;
    correcting.reviewed().then(
      (ids) => {
        if (!left) setReviewed(ids);
      },
      (error) => console.error('reviews cannot be read', error),
    );
    return () => {
      left = true;
    };
  }, [correcting]);
  const shares = useTreatmentCorrections(photos, reviewed, shown);
  return {
    shares,
    shown,
    show() {
      if (!shares) return;
      void correcting
        .noteTreatmentsShown(shares.trialId, photos[0]?.ratingDate ?? null)
        .then(() => setShown(true));
    },
  };
}
