import { app } from '../../../core/text/app.ts';
import { area as words } from '../../../core/text/area.ts';
import { frameMissingText } from '../../../core/text/quality.ts';
import type { Command } from '../../commands/command.ts';
import { shortcutText } from '../../commands/shortcutText.ts';
import { Button } from '../../components/Button.tsx';
import { frameProposal } from './frameProposal.ts';
import styles from './Proposal.module.css';
import type { AreaControl } from './useArea.ts';

interface ProposalProps {
  readonly control: AreaControl;
  readonly confirmCommand: Command;
  readonly editCommand: Command;
  readonly onWholePhoto: () => void;
}

/** What the program asks the person about the frame, next to the photo; nothing once that is settled. */
export function Proposal({ control, confirmCommand, editCommand, onWholePhoto }: ProposalProps) {
  const proposal = frameProposal(control);
  if (!proposal) return null;
  const sentence = {
    unconfirmed: words.proposal.unconfirmed,
    offered: words.proposal.offered,
    missing: proposal.kind === 'missing' ? frameMissingText(proposal.reason) : '',
  }[proposal.kind];
  return (
    <div className={styles.strip}>
      <p role="status">{sentence}</p>
      <div className={styles.actions}>
        {proposal.kind !== 'missing' && (
          <Button
            look="main"
            onClick={confirmCommand.run}
            title={`${confirmCommand.label} (${shortcutText(confirmCommand.shortcut!)})`}
          >
            {proposal.kind === 'unconfirmed' ? words.confirm : words.useOffered}
          </Button>
        )}
        <Button onClick={editCommand.run}>
          {proposal.kind === 'missing' ? app.frame.mark : words.proposal.change}
        </Button>
        {proposal.kind !== 'unconfirmed' && <Button onClick={onWholePhoto}>{words.wholePhoto}</Button>}
      </div>
    </div>
  );
}
