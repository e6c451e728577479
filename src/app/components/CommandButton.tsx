import type { Command } from '../commands/command.ts';
import { ariaShortcut, shortcutText } from '../commands/shortcutText.ts';
import { Button } from './Button.tsx';
import styles from './CommandButton.module.css';
import { Icon, type IconName } from './Icon.tsx';

interface CommandButtonProps {
  readonly command: Command;
  readonly icon: IconName;
  /** Words beside the icon where there is room: a part of the command's label. */
  readonly words?: string;
}

export function CommandButton({ command, icon, words }: CommandButtonProps) {
  const { label, shortcut, isOn } = command;
  return (
    <Button
      look="quiet"
      disabled={!command.isEnabled()}
      onClick={command.run}
      aria-pressed={isOn}
      aria-label={label}
      aria-keyshortcuts={shortcut ? ariaShortcut(shortcut) : undefined}
      title={shortcut ? `${label} (${shortcutText(shortcut)})` : label}
    >
      <Icon name={icon} />
      {words && <span className={styles.words}>{words}</span>}
    </Button>
  );
}
