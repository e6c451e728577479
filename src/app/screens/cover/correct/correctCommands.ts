import { useMemo } from 'react';
import { screenPoint } from '../../../../core/geometry/points.ts';
import { AUTOMATIC } from '../../../../core/mask/correctionLayer.ts';
import { app } from '../../../../core/text/app.ts';
import { correct } from '../../../../core/text/correct.ts';
import type { CoverClass } from '../../../../core/trial/coverClass.ts';
import type { Surface } from '../../../canvas/useSurface.ts';
import { zoomAt } from '../../../canvas/view.ts';
import type { Command, Shortcut } from '../../../commands/command.ts';
import type { CorrectingState } from '../../../session/correcting/correctingState.ts';
import type { Correcting } from '../../../session/correcting.ts';
import type { ViewControl } from '../useView.ts';
import type { Looks } from './useLooks.ts';
import type { Tool, Tools } from './useTools.ts';

/** Zoom of one press of a key or button. */
const ZOOM_STEP = 1.5;
/** How a press makes the brush larger. */
const SIZE_STEP = 1.25;

interface CorrectCommandsOptions {
  readonly correcting: Correcting;
  readonly state: CorrectingState;
  readonly tools: Tools;
  readonly looks: Looks;
  readonly classes: readonly CoverClass[];
  readonly viewing: ViewControl;
  readonly surface: Surface | null;
  readonly neighbours: { readonly previousId: string | null; readonly nextId: string | null };
  readonly onOpen: (photoId: string) => void;
  readonly onDone: () => void;
}

/** Everything that can be done while correcting. */
export function useCorrectCommands(options: CorrectCommandsOptions) {
  const { correcting, state, tools, looks, classes, viewing, surface, neighbours, onOpen, onDone } = options;
  return useMemo(() => {
    const { previousId, nextId } = neighbours;
    const { canUndo, canRedo, busy, preview } = state;
    const middle = screenPoint((surface?.width ?? 0) / 2, (surface?.height ?? 0) / 2);
    const command = (
      id: string,
      label: string,
      shortcut: Shortcut | null,
      run: () => void,
      more: { isEnabled?: boolean; isOn?: boolean; release?: () => void } = {},
    ): Command => {
      const { isEnabled = true, ...rest } = more;
      return { id, label, shortcut, run, isEnabled: () => isEnabled, ...rest };
    };
    const toolCommand = (which: Tool, label: string, key: string) =>
      command(`correct-${which}`, label, { key }, () => tools.setTool(which), { isOn: tools.tool === which });
    const zoom = (factor: number) => () => viewing.change((view) => zoomAt(view, middle, factor));
    const isZoomed = !viewing.fitted;

    const named = {
      undo: command('correct-undo', correct.undo, { key: 'z', mod: true }, () => correcting.undo(), {
        isEnabled: canUndo && !busy,
      }),
      redo: command(
        'correct-redo',
        correct.redo,
        { key: 'z', mod: true, shift: true },
        () => correcting.redo(),
        {
          isEnabled: canRedo && !busy,
        },
      ),
      brush: toolCommand('brush', correct.brush, 'b'),
      outline: toolCommand('outline', correct.outline, 'q'),
      patch: toolCommand('patch', correct.patch, 'f'),
      likeness: toolCommand('likeness', correct.likeness, 'k'),
      move: toolCommand('move', correct.move, 'v'),
      close: command('correct-close', correct.closeOutline, { key: 'c' }, () => tools.closeOutline(), {
        isEnabled: tools.tool === 'outline',
      }),
      apply: command('correct-apply', correct.apply, { key: 'Enter' }, () => tools.applyLikeness(), {
        isEnabled: preview !== null,
      }),
      view: command('correct-view', correct.nextView, { key: 'o' }, looks.next),
      bare: command('correct-bare', correct.bare, { key: 'h' }, () => looks.setBare(true), {
        isOn: looks.bare,
        release: () => looks.setBare(false),
      }),
      beside: command('correct-beside', correct.beside, { key: 's' }, () => looks.setBeside(!looks.beside), {
        isOn: looks.beside,
      }),
      magnifier: command(
        'correct-magnifier',
        correct.magnifier,
        { key: 'd' },
        () => looks.setMagnifier(!looks.magnifier),
        {
          isOn: looks.magnifier,
        },
      ),
      previous: command(
        'previous-photo',
        app.commands.previous,
        { key: 'p' },
        () => previousId && onOpen(previousId),
        {
          isEnabled: previousId !== null,
        },
      ),
      next: command('next-photo', app.commands.next, { key: 'n' }, () => nextId && onOpen(nextId), {
        isEnabled: nextId !== null,
      }),
      zoomIn: command('zoom-in', app.commands.zoomIn, { key: '+' }, zoom(ZOOM_STEP)),
      zoomOut: command('zoom-out', app.commands.zoomOut, { key: '-' }, zoom(1 / ZOOM_STEP), {
        isEnabled: isZoomed,
      }),
      fit: command('fit', app.commands.fit, { key: '0' }, viewing.fit, { isEnabled: isZoomed }),
      done: command('correct-done', correct.doneLabel, { key: 'Escape' }, () => {
        if (!tools.giveUp()) onDone();
      }),
    };
    const paints = classes.slice(0, 9).map(({ id, name }, index) =>
      command(
        `paint-${id}`,
        correct.paint(name),
        { key: String(index + 1) },
        () => tools.setLabel(index + 1),
        {
          isOn: tools.label === index + 1,
        },
      ),
    );
    const takeBack = command(
      'paint-computed',
      correct.paint(correct.asComputed),
      { key: 'e' },
      () => tools.setLabel(AUTOMATIC),
      {
        isOn: tools.label === AUTOMATIC,
      },
    );
    const sizes = [
      command('brush-smaller', correct.smaller, { key: '[' }, () =>
        tools.setRadius(Math.floor(tools.radius / SIZE_STEP)),
      ),
      command('brush-larger', correct.larger, { key: ']' }, () =>
        tools.setRadius(Math.ceil(tools.radius * SIZE_STEP)),
      ),
    ];
    return {
      ...named,
      paints: [...paints, takeBack],
      all: [...Object.values(named), ...paints, takeBack, ...sizes] as readonly Command[],
    };
  }, [correcting, state, tools, looks, classes, viewing, surface, neighbours, onOpen, onDone]);
}
