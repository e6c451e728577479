/** A key with what must be held down with it. `mod` is Control, or Command on a Mac. */
export interface Shortcut {
  /** As `KeyboardEvent.key` gives it; letters in lower case. */
  readonly key: string;
  readonly shift?: boolean;
  readonly mod?: boolean;
}

/**
 * Something a person can do. Toolbar, keyboard and help sheet all read this object.
 */
export interface Command {
  /** Stable name in code and tests, e.g. "next-photo". */
  readonly id: string;
  readonly label: string;
  readonly shortcut: Shortcut | null;
  /** For a switch: whether it is on. */
  readonly isOn?: boolean;
  /** A key held down counts once: repeats would do something else each time. @default false */
  readonly once?: boolean;
  isEnabled(): boolean;
  run(): void;
  /** For what lasts while its key is held: called when the key is let go. */
  release?(): void;
}

type KeyPress = Pick<KeyboardEvent, 'key' | 'shiftKey' | 'ctrlKey' | 'metaKey' | 'altKey'>;

/** Keys whose character already needs Shift on some keyboards, so that Shift is not looked at. */
const isSymbol = (key: string) => key.length === 1 && !/[a-z0-9 ]/i.test(key);

/** Whether a key press is this shortcut. */
export function matchesShortcut(shortcut: Shortcut, press: KeyPress): boolean {
  return (
    press.key.toLowerCase() === shortcut.key.toLowerCase() &&
    !press.altKey &&
    (press.ctrlKey || press.metaKey) === (shortcut.mod ?? false) &&
    (isSymbol(shortcut.key) || press.shiftKey === (shortcut.shift ?? false))
  );
}

/** Whether it is one printable character alone: what speech input may trigger by accident, so it can be switched off. */
export function isSingleCharacter({ key, mod }: Shortcut): boolean {
  return key.length === 1 && !mod;
}
