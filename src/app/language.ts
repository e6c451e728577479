import { speak } from '../core/text/catalogue.ts';
import { chooseLocale, setLocale } from '../core/text/format.ts';
import type { Translation } from '../core/text/languages/translation.ts';
import { oneOf, storedPreference } from './components/usePreference.ts';

interface LanguageEntry {
  /** In the language itself. */
  readonly name: string;
  /** Null for the language the catalogues are written in. */
  readonly load: (() => Promise<Translation>) | null;
}

/** The languages the page speaks, by BCP 47 tag. */
export const LANGUAGES = {
  en: { name: 'English', load: null },
  de: {
    name: 'Deutsch',
    load: async () => (await import('../core/text/languages/german.ts')).german,
  },
} satisfies Readonly<Record<string, LanguageEntry>>;

type Language = keyof typeof LANGUAGES;
/** `system`: the first language of the device that the page speaks. */
export type LanguageChoice = 'system' | Language;

const TAGS = Object.keys(LANGUAGES) as Language[];
export const LANGUAGE_CHOICES: readonly LanguageChoice[] = ['system', ...TAGS];
export const isLanguageChoice = oneOf<LanguageChoice>(...LANGUAGE_CHOICES);

/** @param preferred BCP 47 tags of the device, the most preferred first */
export function chooseLanguage(choice: LanguageChoice, preferred: readonly string[]): Language {
  if (choice !== 'system') return choice;
  const primary = preferred.map((tag) => tag.toLowerCase().split('-')[0]);
  return primary.map((tag) => TAGS.find((own) => own === tag)).find((own) => own !== undefined) ?? 'en';
}

/** Sets the language of the page, before the modules with its words are fetched. English where a translation does not come. */
export async function startLanguage(): Promise<void> {
  const choice = storedPreference<LanguageChoice>('language', 'system', isLanguageChoice);
  let language = chooseLanguage(choice, navigator.languages);
  const { load }: LanguageEntry = LANGUAGES[language];
  try {
    if (load) speak(await load());
  } catch (error) {
    console.warn('the translation could not be fetched', error);
    language = 'en';
  }
  document.documentElement.lang = language;
  setLocale(chooseLocale(language, navigator.languages));
}
