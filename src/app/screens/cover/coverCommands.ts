import { useMemo } from 'react';
import { useLocation } from 'wouter';
import { screenPoint } from '../../../core/geometry/points.ts';
import { app } from '../../../core/text/app.ts';
import { area as words } from '../../../core/text/area.ts';
import { correct } from '../../../core/text/correct.ts';
import { review } from '../../../core/text/review.ts';
import { teach } from '../../../core/text/teach.ts';
import type { CoverClass } from '../../../core/trial/coverClass.ts';
import type { Surface } from '../../canvas/useSurface.ts';
import { type Size, zoomAt } from '../../canvas/view.ts';
import type { Command } from '../../commands/command.ts';
import type { FrameControl } from './useFrame.ts';
import type { Overlay } from './useOverlay.ts';
import type { ViewControl } from './useView.ts';

/** Zoom of one press of a key or button. */
const ZOOM_STEP = 1.5;

interface CoverState {
  readonly neighbours: { readonly previousId: string | null; readonly nextId: string | null };
  readonly viewing: ViewControl;
  readonly surface: Surface | null;
  readonly photoSize: Size | null;
  readonly overlay: Overlay;
  readonly classes: readonly CoverClass[];
  readonly editing: boolean;
  /** Whether the photo is seen bare, while something is marked on it. */
  readonly bare: boolean;
  readonly setEditing: (on: boolean) => void;
  readonly frame: FrameControl;
  /** The view from straight above, for a photo with a frame. */
  readonly straight: boolean;
  readonly setStraight: (on: boolean) => void;
  /** Takes what is proposed as right; null where nothing is. */
  readonly onConfirm: (() => void) | null;
  readonly onTeach: () => void;
  readonly onCorrect: () => void;
  readonly onDates: () => void;
}

/** Everything that can be done on the Cover screen. */
export function useCoverCommands(state: CoverState) {
  const [, navigate] = useLocation();
  const { neighbours, viewing, surface, photoSize, overlay, classes, editing, setEditing, bare, frame } =
    state;
  const { straight, setStraight, onConfirm, onTeach, onCorrect, onDates } = state;
  return useMemo(() => {
    const go = (id: string | null) => ({
      isEnabled: () => id !== null,
      run: () => navigate(`/cover/${id}`),
    });
    const middle = screenPoint((surface?.width ?? 0) / 2, (surface?.height ?? 0) / 2);
    const hasPhoto = () => photoSize !== null;
    const zoom = (factor: number) => ({
      isEnabled: hasPhoto,
      run: () => viewing.change((view) => zoomAt(view, middle, factor)),
    });
    const text = app.commands;

    const previous: Command = {
      id: 'previous-photo',
      label: text.previous,
      shortcut: { key: 'p' },
      ...go(neighbours.previousId),
    };
    const next: Command = {
      id: 'next-photo',
      label: text.next,
      shortcut: { key: 'n' },
      ...go(neighbours.nextId),
    };
    const zoomIn: Command = { id: 'zoom-in', label: text.zoomIn, shortcut: { key: '+' }, ...zoom(ZOOM_STEP) };
    const zoomOut: Command = {
      id: 'zoom-out',
      label: text.zoomOut,
      shortcut: { key: '-' },
      isEnabled: () => hasPhoto() && !viewing.fitted,
      run: zoom(1 / ZOOM_STEP).run,
    };
    const fit: Command = {
      id: 'fit',
      label: text.fit,
      shortcut: { key: '0' },
      isEnabled: () => hasPhoto() && !viewing.fitted,
      run: viewing.fit,
    };
    const actualPixels: Command = {
      id: 'actual-pixels',
      label: text.actualPixels,
      shortcut: { key: 'z' },
      isEnabled: hasPhoto,
      run: () => viewing.change((view) => zoomAt(view, middle, 1 / (surface?.pixelRatio ?? 1) / view.scale)),
    };
    const overlaySwitch: Command = {
      id: 'overlay',
      label: text.overlay,
      shortcut: { key: 'o' },
      isOn: overlay.on && !bare,
      isEnabled: () => !bare,
      run: () => overlay.setOn(!overlay.on),
    };
    const patterns: Command = {
      id: 'patterns',
      label: text.patterns,
      shortcut: { key: 'h' },
      isOn: overlay.patterns,
      isEnabled: () => true,
      run: () => overlay.setPatterns(!overlay.patterns),
    };
    const frameSwitch: Command = {
      id: 'frame',
      label: text.frame,
      shortcut: { key: 'm' },
      isOn: editing,
      isEnabled: () => hasPhoto() && !straight,
      run: () => setEditing(!editing),
    };
    const teachCommand: Command = {
      id: 'teach',
      label: teach.command,
      shortcut: { key: 't' },
      isEnabled: () => hasPhoto() && !editing,
      run: onTeach,
    };
    const correctCommand: Command = {
      id: 'correct',
      label: correct.command,
      shortcut: { key: 'c' },
      isEnabled: () => hasPhoto() && !editing,
      run: onCorrect,
    };
    const reviewCommand: Command = {
      id: 'review',
      label: review.command,
      shortcut: { key: 'w' },
      isEnabled: () => !editing,
      run: () => navigate('/review'),
    };
    const confirm: Command = {
      id: 'confirm-frame',
      label: words.proposal.command,
      shortcut: { key: 'f' },
      isEnabled: () => onConfirm !== null && !editing,
      run: () => onConfirm?.(),
    };
    const straighten: Command = {
      id: 'straighten',
      label: words.straight.command,
      shortcut: { key: 'r' },
      isOn: straight,
      isEnabled: () => hasPhoto() && !editing && frame.stored !== null,
      run: () => setStraight(!straight),
    };
    const dates: Command = {
      id: 'compare-dates',
      label: words.dates.command,
      shortcut: { key: 'd' },
      isEnabled: () => !editing,
      run: onDates,
    };
    const undo: Command = {
      id: 'undo-frame',
      label: text.undoFrame,
      shortcut: { key: 'z', mod: true },
      isEnabled: () => frame.canUndo,
      run: frame.undo,
    };
    const classSwitches = classes.slice(0, 9).map(
      ({ id, name }, index): Command => ({
        id: `class-${id}`,
        label: text.classShown(name),
        shortcut: { key: String(index + 1) },
        isOn: overlay.isShown(id),
        isEnabled: () => true,
        run: () => overlay.toggle(id),
      }),
    );
    const all: readonly Command[] = [
      previous,
      next,
      zoomIn,
      zoomOut,
      fit,
      actualPixels,
      overlaySwitch,
      patterns,
      ...classSwitches,
      frameSwitch,
      undo,
      confirm,
      straighten,
      dates,
      teachCommand,
      correctCommand,
      reviewCommand,
    ];
    return {
      all,
      previous,
      next,
      zoomIn,
      zoomOut,
      fit,
      overlay: overlaySwitch,
      frame: frameSwitch,
      undo,
      confirm,
      straighten,
      dates,
      teach: teachCommand,
      correct: correctCommand,
      review: reviewCommand,
    };
  }, [
    navigate,
    neighbours.previousId,
    neighbours.nextId,
    viewing.change,
    viewing.fit,
    viewing.fitted,
    surface,
    photoSize,
    overlay,
    classes,
    editing,
    setEditing,
    bare,
    frame,
    straight,
    setStraight,
    onConfirm,
    onTeach,
    onCorrect,
    onDates,
  ]);
}
