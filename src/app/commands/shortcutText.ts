import { app } from '../../core/text/app.ts';
import type { Shortcut } from './command.ts';

const isMac = () => /mac|iphone|ipad/i.test(navigator.platform);

/** A shortcut as a person reads it: "N", "Shift+Delete", "Ctrl+Z". */
export function shortcutText({ key, shift, mod }: Shortcut): string {
  const names: Readonly<Record<string, string>> = app.keys;
  const parts = [names[key] ?? (key.length === 1 ? key.toUpperCase() : key)];
  if (shift) parts.unshift(app.keys.shift);
  if (mod) parts.unshift(isMac() ? app.keys.command : app.keys.control);
  return parts.join('+');
}

/** A shortcut in the form that assistive software reads, for `aria-keyshortcuts`. */
export function ariaShortcut({ key, shift, mod }: Shortcut): string {
  const name = key === '+' ? 'Plus' : key === ' ' ? 'Space' : key.length === 1 ? key.toUpperCase() : key;
  return [mod && (isMac() ? 'Meta' : 'Control'), shift && 'Shift', name].filter(Boolean).join('+');
}
