import { useEffect, useMemo, useRef, useState } from 'react';
import type { PhotoPoint } from '../../../core/geometry/points.ts';
import { app } from '../../../core/text/app.ts';
import { area as words } from '../../../core/text/area.ts';
import { correct } from '../../../core/text/correct.ts';
import { teach } from '../../../core/text/teach.ts';
import { FrameHandles } from '../../canvas/FrameHandles.tsx';
import { Loupe } from '../../canvas/Loupe.tsx';
import { OutlineLayer } from '../../canvas/OutlineLayer.tsx';
import { PhotoStage } from '../../canvas/PhotoStage.tsx';
import { StraightView } from '../../canvas/StraightView.tsx';
import { useSurface } from '../../canvas/useSurface.ts';
import { useCommands } from '../../commands/registry.tsx';
import blocks from '../../components/blocks.module.css';
import { CommandButton } from '../../components/CommandButton.tsx';
import { CoverBar, coverSentence } from '../../components/CoverBar.tsx';
import { Verdict } from '../../components/Verdict.tsx';
import type { PhotoSummary } from '../../session/session.ts';
import { CardPanel } from './CardPanel.tsx';
import styles from './CoverScreen.module.css';
import { CorrectedCover } from './correct/CorrectedCover.tsx';
import { useCoverCommands } from './coverCommands.ts';
import { FigureDetails } from './FigureDetails.tsx';
import { Figures } from './Figures.tsx';
import { FramePanel } from './FramePanel.tsx';
import { frameProposal, withProposal } from './frameProposal.ts';
import { IgnoredPanel } from './IgnoredPanel.tsx';
import { labelUnder } from './labelUnder.ts';
import { OverlayPanel } from './OverlayPanel.tsx';
import { PhotoTitle } from './PhotoTitle.tsx';
import { Proposal } from './Proposal.tsx';
import { Remarks } from './Remarks.tsx';
import { useArea } from './useArea.ts';
import { useFrame } from './useFrame.ts';
import { useMarking } from './useMarking.ts';
import { useMask } from './useMask.ts';
import { useOverlay } from './useOverlay.ts';
import { usePhotoPicture } from './usePhotoPicture.ts';
import { useView } from './useView.ts';

/** Room round the photo for handles on its very edge, in CSS pixels. */
const EDITING_MARGIN = 26;

interface PhotoCoverProps {
  readonly photo: PhotoSummary;
  /** Place among all photos, from 0. */
  readonly at: number;
  readonly of: number;
  readonly previousId: string | null;
  readonly nextId: string | null;
  readonly onTeach: () => void;
  readonly onCorrect: () => void;
  readonly onDates: () => void;
}

export function PhotoCover({
  photo,
  at,
  of,
  previousId,
  nextId,
  onTeach,
  onCorrect,
  onDates,
}: PhotoCoverProps) {
  const { id, name, figure } = photo;
  const stage = useRef<HTMLDivElement>(null);
  const surface = useSurface(stage);
  const picture = usePhotoPicture(id);
  const mask = useMask(photo);
  const levels = picture.state === 'ready' ? picture.levels : null;
  const [framing, setFraming] = useState(false);
  const [wantsStraight, setStraight] = useState(false);
  const [corner, setCorner] = useState<number | null>(null);
  const [under, setUnder] = useState<PhotoPoint | null>(null);
  const viewing = useView(levels, surface, framing ? EDITING_MARGIN : 0);
  const size = useMemo(
    () => levels ?? { width: photo.widthPx ?? 1, height: photo.heightPx ?? 1 },
    [levels, photo.widthPx, photo.heightPx],
  );
  const control = useArea(id);
  const frame = useFrame(photo, size, control);
  const marking = useMarking(control, size, viewing.view, surface);
  const setEditing = (on: boolean) => {
    setFraming(on);
    marking.cancel();
    marking.choose(null);
  };
  // anything that the photo has to be seen bare for
  const editing = framing || marking.drawing !== null || marking.chosenId !== null;
  useEffect(() => {
    // on a phone the button may stand far below the photo
    if (editing) stage.current?.scrollIntoView({ block: 'nearest' });
  }, [editing]);
  const proposal = frameProposal(control);
  const straight = wantsStraight && frame.stored !== null && !editing;
  const classes = figure?.settings.classes ?? photo.classes;
  const overlay = useOverlay(classes);
  const shares = figure?.cover.map(({ coverFraction }) => coverFraction) ?? null;

  const commands = useCoverCommands({
    neighbours: { previousId, nextId },
    viewing,
    surface,
    photoSize: levels,
    overlay,
    classes,
    editing: framing,
    setEditing,
    bare: editing,
    frame,
    straight,
    setStraight,
    onConfirm:
      proposal && proposal.kind !== 'missing'
        ? () => control.change((before) => withProposal(before, proposal, control.frameSizeMm))
        : null,
    onTeach,
    onCorrect,
    onDates,
  });
  useCommands(commands.all);

  // the figures are those of other corners from the moment one is moved
  const stale = photo.stale || frame.moved;
  const offered = proposal?.kind === 'offered';
  const outlineWanted = framing || frame.stored !== null || offered;
  return (
    <div className={styles.screen}>
      <div className={styles.left}>
        <div className={styles.stage} style={{ aspectRatio: `${size.width} / ${size.height}` }}>
          <PhotoStage
            stage={stage}
            surface={surface}
            label={app.cover.stage(name)}
            photo={levels}
            view={viewing.view}
            fitted={viewing.fitted}
            changeView={viewing.change}
            mask={mask}
            maskStyle={overlay.style}
            maskOpacity={overlay.on && !editing ? overlay.opacity : 0}
            onPoint={setUnder}
            paint={marking.gestures}
          >
            {levels && viewing.view && outlineWanted && (
              <FrameHandles
                corners={frame.corners}
                view={viewing.view}
                photo={levels}
                dashed={frame.problem !== null || (offered && !framing)}
                editable={framing}
                onMove={(corners, moved) => {
                  frame.move(corners);
                  setCorner(moved);
                }}
                onDone={(corners) => {
                  frame.place(corners);
                  setCorner(null);
                }}
              />
            )}
            {levels && viewing.view && (marking.outlines.length > 0 || marking.drawing) && (
              <OutlineLayer
                outlines={marking.outlines}
                view={viewing.view}
                photo={levels}
                chosenId={marking.chosenId}
                onMove={marking.move}
                onDone={marking.place}
                draft={marking.draft}
              />
            )}
            {straight && levels && frame.stored && (
              <div className={styles.straight}>
                <StraightView
                  label={words.straight.stage(name)}
                  photo={levels}
                  frame={frame.stored}
                  mask={mask}
                  maskStyle={overlay.style}
                  maskOpacity={overlay.on ? overlay.opacity : 0}
                />
                <p className={styles.under}>
                  {words.straight.onlyLooking} {!frame.stored.sizeMm && words.straight.noScale}
                </p>
              </div>
            )}
            {levels && viewing.view && surface && corner !== null && (
              <Loupe
                photo={levels}
                view={viewing.view}
                corners={frame.corners}
                at={frame.corners[corner]!}
                pixelRatio={surface.pixelRatio}
                side={corner === 0 || corner === 3 ? 'right' : 'left'}
              />
            )}
            {picture.state === 'loading' && <p className={styles.loading}>{app.cover.loading}</p>}
            {picture.state === 'failed' && <p className={styles.cannot}>{app.cover.cannotShow(name)}</p>}
            {under && mask && levels && overlay.on && !editing && !straight && (
              <p className={styles.under}>{labelUnder(mask, under, classes)}</p>
            )}
          </PhotoStage>
        </div>
        {shares ? (
          <div className={stale ? `${styles.bar} ${styles.stale}` : styles.bar}>
            <CoverBar classes={classes} coverFraction={shares} />
          </div>
        ) : (
          <div className={styles.noBar} />
        )}
        {!editing && (
          <Proposal
            control={control}
            confirmCommand={commands.confirm}
            editCommand={commands.frame}
            onWholePhoto={frame.clear}
          />
        )}
        <div className={styles.tools} role="toolbar" aria-label={app.cover.tools}>
          <CommandButton command={commands.previous} icon="previous" />
          <span className={styles.position}>
            <span aria-hidden="true">{app.cover.position(at + 1, of)}</span>
            <span className="visually-hidden">{app.cover.positionLabel(at + 1, of)}</span>
          </span>
          <CommandButton command={commands.next} icon="next" />
          <span className={styles.spring} />
          <span className={styles.zoom}>
            <CommandButton command={commands.zoomOut} icon="minus" />
            <CommandButton command={commands.zoomIn} icon="plus" />
          </span>
          <CommandButton command={commands.fit} icon="fit" />
          <span className={styles.gap} />
          <CommandButton command={commands.overlay} icon="layers" words={app.cover.overlayWord} />
          <CommandButton command={commands.straighten} icon="straighten" />
          <CommandButton command={commands.dates} icon="dates" words={words.dates.word} />
          <CommandButton command={commands.frame} icon="corners" words={app.frame.title} />
          <CommandButton command={commands.teach} icon="brush" words={teach.word} />
          <CommandButton command={commands.correct} icon="edit" words={correct.word} />
        </div>
      </div>
      <aside className={blocks.beside}>
        <PhotoTitle photo={photo} />
        <Figures photo={photo} classes={classes} overlay={overlay} stale={stale} brief={editing} />
        <CorrectedCover photo={photo} onReview={commands.review.run} />
        <Verdict quality={control.check?.quality ?? null} />
        <Remarks photo={photo} />
        {!editing && <OverlayPanel overlay={overlay} />}
        <FramePanel
          photo={photo}
          control={control}
          frame={frame}
          marking={marking}
          size={size}
          editing={framing}
          editCommand={commands.frame}
          undoCommand={commands.undo}
        />
        <IgnoredPanel marking={marking} />
        <CardPanel control={control} marking={marking} />
        {figure && <FigureDetails photo={photo} figure={figure} />}
      </aside>
      <p className="visually-hidden" role="status">
        {shares && !stale && photo.work === null ? coverSentence(classes, shares) : ''}
      </p>
    </div>
  );
}
