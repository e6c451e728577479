import { useMemo } from 'react';
import { BACK_KEY, CANNOT_TELL_KEY } from '../../../core/point-grid/callSession.ts';
import { pointsText } from '../../../core/text/pointsScreen.ts';
import type { CoverClass } from '../../../core/trial/coverClass.ts';
import type { Command } from '../../commands/command.ts';
import { shortName } from '../../components/shortName.ts';
import type { PointCalling } from '../../session/pointCalling.ts';

const text = pointsText.calling;

interface CallCommandsOptions {
  readonly calling: PointCalling;
  readonly classes: readonly CoverClass[];
  readonly zoom: (factor: number) => void;
  readonly onLeave: () => void;
  /** Whether the photo can be seen: nothing is called unseen. */
  readonly visible: boolean;
}

const ZOOM_STEP = 1.5;

/** Everything that can be done while points are called. */
export function useCallCommands({ calling, classes, zoom, onLeave, visible }: CallCommandsOptions) {
  return useMemo(() => {
    const command = (
      id: string,
      label: string,
      key: string,
      run: () => void,
      isEnabled = () => true,
    ): Command => ({ id, label, shortcut: { key }, once: true, run, isEnabled });
    const isOpen = () => visible && !calling.session.get().paused;
    const byClass = classes.map(({ id, name, key }) =>
      command(
        `call-${id}`,
        text.callAs(shortName(name)),
        key.toLowerCase(),
        () => calling.act({ type: 'call', classId: id }),
        isOpen,
      ),
    );
    const cannotTell = command(
      'call-cannot-tell',
      text.cannotTell,
      CANNOT_TELL_KEY,
      () => calling.act({ type: 'call', classId: null }),
      isOpen,
    );
    const back = command('call-back', text.back, BACK_KEY, () => calling.act({ type: 'back' }), isOpen);
    const forward = command(
      'call-forward',
      text.forward,
      'ArrowRight',
      () => calling.act({ type: 'forward' }),
      isOpen,
    );
    const pause = command('call-pause', text.pause, 'Escape', () =>
      calling.session.get().paused ? onLeave() : calling.act({ type: 'pause' }),
    );
    const closer = command('call-closer', text.closer, '+', () => zoom(ZOOM_STEP));
    const wider = command('call-wider', text.wider, '-', () => zoom(1 / ZOOM_STEP));
    return {
      byClass,
      cannotTell,
      back,
      pause,
      closer,
      wider,
      all: [...byClass, cannotTell, back, forward, pause, closer, wider],
    };
  }, [calling, classes, zoom, onLeave, visible]);
}
