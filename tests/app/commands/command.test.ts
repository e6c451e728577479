import { expect, test } from 'vitest';
import { isSingleCharacter, matchesShortcut } from '../../../src/app/commands/command.ts';

const press = (
  key: string,
  held: Partial<Record<'shiftKey' | 'ctrlKey' | 'metaKey' | 'altKey', boolean>> = {},
) => ({
  key,
  shiftKey: false,
  ctrlKey: false,
  metaKey: false,
  altKey: false,
  ...held,
});

test('a letter is met with or without capitals lock, but not with other keys held', () => {
  expect(matchesShortcut({ key: 'n' }, press('n'))).toBe(true);
  expect(matchesShortcut({ key: 'n' }, press('N'))).toBe(true);
  expect(matchesShortcut({ key: 'n' }, press('N', { shiftKey: true }))).toBe(false);
  expect(matchesShortcut({ key: 'n' }, press('n', { ctrlKey: true }))).toBe(false);
  expect(matchesShortcut({ key: 'n' }, press('n', { altKey: true }))).toBe(false);
});

test('Command does as Control', () => {
  expect(matchesShortcut({ key: 'z', mod: true }, press('z', { ctrlKey: true }))).toBe(true);
  expect(matchesShortcut({ key: 'z', mod: true }, press('z', { metaKey: true }))).toBe(true);
  expect(matchesShortcut({ key: 'z', mod: true }, press('z'))).toBe(false);
});

test('a symbol is met however the keyboard makes it', () => {
  expect(matchesShortcut({ key: '+' }, press('+', { shiftKey: true }))).toBe(true);
  expect(matchesShortcut({ key: '?' }, press('?', { shiftKey: true }))).toBe(true);
});

test('only single characters count as such', () => {
  expect(isSingleCharacter({ key: 'n' })).toBe(true);
  expect(isSingleCharacter({ key: 'Delete' })).toBe(false);
  expect(isSingleCharacter({ key: 'z', mod: true })).toBe(false);
});
