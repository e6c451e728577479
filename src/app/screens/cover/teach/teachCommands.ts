import { useMemo } from 'react';
import { screenPoint } from '../../../../core/geometry/points.ts';
import { app } from '../../../../core/text/app.ts';
import { teach } from '../../../../core/text/teach.ts';
import type { CoverClass } from '../../../../core/trial/coverClass.ts';
import type { Surface } from '../../../canvas/useSurface.ts';
import { zoomAt } from '../../../canvas/view.ts';
import type { Command, Shortcut } from '../../../commands/command.ts';
import type { Teaching, TeachingState } from '../../../session/teaching.ts';
import type { Overlay } from '../useOverlay.ts';
import type { ViewControl } from '../useView.ts';
import type { Brush, Tool } from './useBrush.ts';

/** Zoom of one press of a key or button. */
const ZOOM_STEP = 1.5;
/** How a press makes the brush larger. */
const SIZE_STEP = 1.25;

interface TeachCommandsOptions {
  readonly teaching: Teaching | null;
  readonly state: TeachingState | null;
  readonly brush: Brush;
  readonly classes: readonly CoverClass[];
  readonly setClassId: (id: string) => void;
  readonly classId: string;
  readonly viewing: ViewControl;
  readonly surface: Surface | null;
  readonly overlay: Overlay;
  readonly neighbours: { readonly previousId: string | null; readonly nextId: string | null };
  readonly onOpen: (photoId: string) => void;
  readonly onDone: () => void;
}

/** Everything that can be done while teaching. */
export function useTeachCommands(options: TeachCommandsOptions) {
  const { teaching, state, brush, classes, classId, setClassId, viewing, surface, overlay } = options;
  const { neighbours, onOpen, onDone } = options;
  const { previousId, nextId } = neighbours;
  const { canUndo = false, canRedo = false } = state ?? {};
  const { tool, setTool, radiusPx, setRadius } = brush;
  return useMemo(() => {
    const middle = screenPoint((surface?.width ?? 0) / 2, (surface?.height ?? 0) / 2);
    const command = (
      id: string,
      label: string,
      shortcut: Shortcut | null,
      run: () => void,
      isEnabled: () => boolean = () => true,
      isOn?: boolean,
    ): Command => ({ id, label, shortcut, run, isEnabled, ...(isOn !== undefined && { isOn }) });
    const toolCommand = (which: Tool, label: string, key: string) =>
      command(
        `teach-${which}`,
        label,
        { key },
        () => setTool(which),
        () => true,
        tool === which,
      );
    const zoom = (factor: number) => () => viewing.change((view) => zoomAt(view, middle, factor));
    const isZoomed = () => !viewing.fitted;

    const named = {
      undo: command(
        'teach-undo',
        teach.undo,
        { key: 'z', mod: true },
        () => void teaching?.undo(),
        () => canUndo,
      ),
      redo: command(
        'teach-redo',
        teach.redo,
        { key: 'z', mod: true, shift: true },
        () => void teaching?.redo(),
        () => canRedo,
      ),
      brush: toolCommand('brush', teach.brush, 'b'),
      eraser: toolCommand('eraser', teach.eraser, 'e'),
      move: toolCommand('move', teach.move, 'v'),
      previous: command(
        'previous-photo',
        app.commands.previous,
        { key: 'p' },
        () => previousId && onOpen(previousId),
        () => previousId !== null,
      ),
      next: command(
        'next-photo',
        app.commands.next,
        { key: 'n' },
        () => nextId && onOpen(nextId),
        () => nextId !== null,
      ),
      zoomIn: command('zoom-in', app.commands.zoomIn, { key: '+' }, zoom(ZOOM_STEP)),
      zoomOut: command('zoom-out', app.commands.zoomOut, { key: '-' }, zoom(1 / ZOOM_STEP), isZoomed),
      fit: command('fit', app.commands.fit, { key: '0' }, viewing.fit, isZoomed),
      overlay: command(
        'overlay',
        app.commands.overlay,
        { key: 'o' },
        () => overlay.setOn(!overlay.on),
        () => true,
        overlay.on,
      ),
      done: command('teach-done', teach.doneLabel, { key: 'Escape' }, onDone),
    };
    const paintClasses = classes.slice(0, 9).map(({ id, name }, index) =>
      command(
        `paint-${id}`,
        teach.paintClass(name),
        { key: String(index + 1) },
        () => {
          setClassId(id);
          setTool('brush');
        },
        () => true,
        classId === id && tool === 'brush',
      ),
    );
    const others = [
      command('brush-smaller', teach.smaller, { key: '[' }, () =>
        setRadius(Math.floor(radiusPx / SIZE_STEP)),
      ),
      command('brush-larger', teach.larger, { key: ']' }, () => setRadius(Math.ceil(radiusPx * SIZE_STEP))),
    ];
    return {
      ...named,
      paintClasses,
      all: [...Object.values(named), ...others, ...paintClasses] as readonly Command[],
    };
  }, [
    teaching,
    canUndo,
    canRedo,
    tool,
    setTool,
    radiusPx,
    setRadius,
    classes,
    classId,
    setClassId,
    viewing.change,
    viewing.fit,
    viewing.fitted,
    surface,
    overlay,
    previousId,
    nextId,
    onOpen,
    onDone,
  ]);
}
