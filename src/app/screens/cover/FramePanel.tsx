import { photoPoint, type Quadrilateral } from '../../../core/geometry/points.ts';
import { app } from '../../../core/text/app.ts';
import type { Size } from '../../canvas/view.ts';
import type { Command } from '../../commands/command.ts';
import { shortcutText } from '../../commands/shortcutText.ts';
import { Button } from '../../components/Button.tsx';
import { Icon } from '../../components/Icon.tsx';
import { NumberField } from '../../components/NumberField.tsx';
import { problemText } from '../../components/problemText.ts';
import styles from './FramePanel.module.css';
import { FrameSize } from './FrameSize.tsx';
import type { AreaControl } from './useArea.ts';
import type { FrameControl } from './useFrame.ts';

/** Far beyond any photo: a corner outside the photo is said to be so, not refused while it is typed. */
const FARTHEST_PX = 100_000;

interface FramePanelProps {
  readonly area: AreaControl;
  readonly frame: FrameControl;
  readonly size: Size;
  readonly editing: boolean;
  readonly editCommand: Command;
  readonly undoCommand: Command;
}

/** The measured area in numbers: its corners, its true size, and the way to mark it on the photo. */
export function FramePanel({ area, frame, size, editing, editCommand, undoCommand }: FramePanelProps) {
  const { corners, stored, problem } = frame;
  const { failure } = area;
  const set = (corner: number, axis: 0 | 1, value: number) =>
    frame.place(
      corners.map(([x, y], index) =>
        index === corner ? (axis === 0 ? photoPoint(value, y) : photoPoint(x, value)) : photoPoint(x, y),
      ) as unknown as Quadrilateral<'photo'>,
    );
  return (
    <section
      className={editing ? `${styles.panel} ${styles.first}` : styles.panel}
      aria-label={app.frame.title}
    >
      <header>
        <div>
          <h2>{app.frame.title}</h2>
          <p className={styles.soft}>{stored ? app.frame.marked : app.frame.none}</p>
        </div>
        <Button
          look={editing ? 'main' : 'plain'}
          disabled={!editCommand.isEnabled()}
          aria-label={editing || stored ? undefined : editCommand.label}
          onClick={editCommand.run}
        >
          {editing ? app.frame.done : stored ? app.frame.change : app.frame.mark}
        </Button>
      </header>
      {problem && (
        <p className={styles.trouble} role="alert">
          <Icon name="trouble" />
          <span>
            {problemText(problem)} {app.frame.notMeasured}
          </span>
        </p>
      )}
      {failure && (
        <p className={styles.trouble} role="alert">
          <Icon name="trouble" />
          <span>{app.frame.failed(failure)}</span>
        </p>
      )}
      {editing && (
        <>
          <p>
            {app.frame.hint} <span className={styles.keys}>{app.frame.keyHint}</span>
          </p>
          <table className={styles.corners}>
            <thead>
              <tr>
                <th scope="col">{app.frame.corner}</th>
                <th scope="col">{app.frame.across}</th>
                <th scope="col">{app.frame.down}</th>
              </tr>
            </thead>
            <tbody>
              {corners.map((point, corner) => (
                <tr key={app.frame.corners[corner]}>
                  <th scope="row">{app.frame.corners[corner]}</th>
                  {([0, 1] as const).map((axis) => (
                    <td key={axis}>
                      <NumberField
                        label={app.frame.cornerField(
                          app.frame.corners[corner]!,
                          axis === 0 ? app.frame.across : app.frame.down,
                        )}
                        hideLabel
                        unit={app.frame.pixels}
                        value={point[axis]}
                        least={-FARTHEST_PX}
                        most={FARTHEST_PX}
                        onChange={(value) => set(corner, axis, value!)}
                      />
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
          <p className={styles.soft}>{app.frame.within(size.width, size.height)}</p>
          <div className={styles.actions}>
            <Button
              disabled={!undoCommand.isEnabled()}
              onClick={undoCommand.run}
              title={`${undoCommand.label} (${shortcutText(undoCommand.shortcut!)})`}
            >
              <Icon name="undo" />
              {app.frame.undo}
            </Button>
            <Button disabled={stored === null} onClick={frame.clear}>
              {app.frame.clear}
            </Button>
          </div>
        </>
      )}
      {stored && <FrameSize key={String(stored.sizeMm)} sizeMm={stored.sizeMm} onChange={frame.resize} />}
    </section>
  );
}
