import type { Translation } from './languages/translation.ts';

let spoken: Translation = {};

/**
 * Chooses the language of every catalogue that is evaluated from now on: call it before the modules with the words are
 * fetched. Without it they speak English, as workers and the command line do.
 */
export function speak(translation: Translation): void {
  spoken = translation;
}

/**
 * Words in the chosen language, entry by entry; what its translation lacks stays English. Objects are gone through to their
 * entries; a text, a list or a function is replaced whole.
 *
 * @param name under which the words are exported; translations use it
 */
// biome-ignore format: the note to the bundler has to stand right before the function
/* @__NO_SIDE_EFFECTS__ */
export function catalogue<T>(name: keyof Translation, english: T): T {
  return translated(english, spoken[name]);
}

function translated<T>(english: T, foreign: unknown): T {
  if (foreign === undefined) return english;
  if (!isGroup(english) || !isGroup(foreign)) return foreign as T;
  const entries = Object.entries(english).map(([key, value]) => [key, translated(value, foreign[key])]);
  return Object.fromEntries(entries);
}

const isGroup = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
