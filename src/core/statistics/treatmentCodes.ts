import { repeatableRandom, seedFor, shuffled } from '../trial/repeatableRandom.ts';

const CONSONANTS = 'BDFGKLMNPRSTVZ';
const VOWELS = 'AEIOU';

/**
 * Codes that stand for treatments until an analysis is declared: syllables, shuffled anew for each trial, so that neither
 * number nor name can be guessed from them.
 *
 * @param trialId the same trial has the same codes on every visit
 */
export function treatmentCodes(treatments: readonly number[], trialId: string): ReadonlyMap<number, string> {
  const random = repeatableRandom(seedFor(0, 'treatment codes', trialId));
  const syllables = [...CONSONANTS].flatMap((consonant) => [...VOWELS].map((vowel) => consonant + vowel));
  const words = shuffled(syllables, random);
  const length = words.length;
  return new Map(
    shuffled(treatments, random).map((treatment, index) => {
      const again = Math.floor(index / length);
      return [treatment, words[index % length]! + (again === 0 ? '' : String(again + 1))];
    }),
  );
}
