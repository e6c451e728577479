import type { Command } from '../commands/command.ts';
import { ariaShortcut, shortcutText } from '../commands/shortcutText.ts';
import { Button } from './Button.tsx';
import { Icon, type IconName } from './Icon.tsx';

interface CommandButtonProps {
  readonly command: Command;
  readonly icon: IconName;
  /** Whether the label stands beside the icon; otherwise it is the tooltip. @default false */
  readonly withLabel?: boolean;
}

export function CommandButton({ command, icon, withLabel = false }: CommandButtonProps) {
  const { label, shortcut, isOn } = command;
  return (
    <Button
      look="quiet"
      disabled={!command.isEnabled()}
      onClick={command.run}
      aria-pressed={isOn}
      aria-label={withLabel ? undefined : label}
      aria-keyshortcuts={shortcut ? ariaShortcut(shortcut) : undefined}
      title={shortcut ? `${label} (${shortcutText(shortcut)})` : label}
    >
      <Icon name={icon} />
      {withLabel && label}
    </Button>
  );
}
