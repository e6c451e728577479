import { photoPoint, type Quadrilateral } from '../../../core/geometry/points.ts';
import { app } from '../../../core/text/app.ts';
import { area as words } from '../../../core/text/area.ts';
import { frameWarningText } from '../../../core/text/quality.ts';
import type { Size } from '../../canvas/view.ts';
import type { Command } from '../../commands/command.ts';
import { shortcutText } from '../../commands/shortcutText.ts';
import { Button } from '../../components/Button.tsx';
import { Icon } from '../../components/Icon.tsx';
import { problemText } from '../../components/problemText.ts';
import type { PhotoSummary } from '../../session/session.ts';
import { CornerTable } from './CornerTable.tsx';
import styles from './FramePanel.module.css';
import { FrameSize } from './FrameSize.tsx';
import { frameProposal } from './frameProposal.ts';
import type { AreaControl } from './useArea.ts';
import type { FrameControl } from './useFrame.ts';
import type { Marking } from './useMarking.ts';

interface FramePanelProps {
  readonly photo: PhotoSummary;
  readonly control: AreaControl;
  readonly frame: FrameControl;
  readonly marking: Marking;
  readonly size: Size;
  readonly editing: boolean;
  readonly editCommand: Command;
  readonly undoCommand: Command;
}

/** The measured area: the frame as found or marked, its corners and size, or the choice to do without one. */
export function FramePanel(props: FramePanelProps) {
  const { photo, control, frame, marking, size, editing, editCommand, undoCommand } = props;
  const { corners, stored, problem } = frame;
  const { area, failure } = control;
  const proposal = frameProposal(control);
  const finding = proposal && proposal.kind !== 'missing' ? proposal.finding : null;
  const undecided = area !== null && area.frame === null && area.frameBy === null;
  const outlined = marking.outlines.some(({ kind }) => kind === 'measured');
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
          <p className={styles.soft}>{stateWords(control, outlined)}</p>
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
      {finding?.warnings.map((warning) => (
        <p key={`${warning.code}${'side' in warning ? warning.side : ''}`} className={styles.remark}>
          <Icon name="trouble" />
          <span>{frameWarningText(warning)}</span>
        </p>
      ))}
      {finding && <p className={styles.soft}>{words.confidence(finding.confidence)}</p>}
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
          <CornerTable corners={corners} onChange={set} />
          <p className={styles.soft}>{app.frame.within(size.width, size.height)}</p>
        </>
      )}
      <div className={styles.actions}>
        {(editing || control.canUndo) && (
          <Button
            disabled={!undoCommand.isEnabled()}
            onClick={undoCommand.run}
            title={`${undoCommand.label} (${shortcutText(undoCommand.shortcut!)})`}
          >
            <Icon name="undo" />
            {app.frame.undo}
          </Button>
        )}
        {editing && (stored !== null || undecided) && (
          <Button onClick={frame.clear}>{app.frame.clear}</Button>
        )}
        {!stored && !editing && !outlined && (
          <Button onClick={() => marking.begin('outline')}>{words.outline}</Button>
        )}
      </div>
      {stored && !stored.sizeMm && <p className={styles.soft}>{words.sizeMissing}</p>}
      {stored && (
        <FrameSize
          key={String(stored.sizeMm)}
          sizeMm={stored.sizeMm}
          ratingDate={photo.ratingDate}
          onChange={frame.resize}
          onForDate={control.sizeForDate}
        />
      )}
    </section>
  );
}

/** Where the measured area comes from. */
function stateWords({ area, check }: AreaControl, outlined: boolean): string {
  if (!area) return '';
  const { frame, frameBy } = area;
  if (frame) return frameBy ? `${app.frame.marked} ${words.frameBy[frameBy]}` : app.frame.marked;
  if (outlined) return words.inOutline;
  if (frameBy) return words.wholeByChoice;
  return check?.frame?.found ? words.offered : words.notLooked;
}
