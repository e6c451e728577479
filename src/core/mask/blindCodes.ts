import { repeatableRandom, seedFor, shuffled } from '../trial/repeatableRandom.ts';

const CONSONANTS = 'bdfghjklmnprstvz';
const VOWELS = 'aeiou';

/**
 * Codes that stand for treatments while photos are judged: syllables dealt out by lot, so that neither their order nor
 * their form tells anything. The same treatments and occasion give the same codes.
 *
 * @param occasion what the codes are for, e.g. a trial and a rating date: another occasion, other codes
 * @throws RangeError for more than 80 treatments
 */
export function blindCodes(treatments: readonly string[], occasion: string): ReadonlyMap<string, string> {
  const codes = [...CONSONANTS].flatMap((first) => [...VOWELS].map((second) => first + second));
  if (treatments.length > codes.length) {
    throw new RangeError(`there are ${codes.length} codes, wanted were ${treatments.length}`);
  }
  const dealt = shuffled(codes, repeatableRandom(seedFor(0, occasion, ...treatments)));
  return new Map(treatments.map((treatment, i) => [treatment, dealt[i]!]));
}
