import { portableLog } from '../features/portableMath.ts';
import { type Random, repeatableRandom } from '../trial/repeatableRandom.ts';
import type { PhotoLook } from './photoLook.ts';

/** A photo of a rating date that might be painted on. */
export interface TeachingCandidate {
  readonly photoId: string;
  /** Null where they are not known, as without a trial. */
  readonly block: string | null;
  readonly treatment: string | null;
  readonly look: PhotoLook;
}

/** Photos to paint on first, and how well they stand for the date. */
export interface TeachingProposal {
  /** In the order of the candidates. */
  readonly photoIds: readonly string[];
  readonly blocks: { readonly covered: number; readonly of: number };
  readonly treatments: { readonly covered: number; readonly of: number };
}

/** Judgement: fewer leave the light of a date unknown, more are seldom painted. */
const FEWEST_PHOTOS = 4;
const MOST_PHOTOS = 8;
/** Up to so many choices all are looked at, e.g. four of sixteen are 1820; beyond that a search begins from so many. */
const MOST_CHOICES = 20_000;
const STARTS = 40;

/** How many photos of a date to paint on: enough for every block and every treatment, four to eight. */
export function teachingPhotosWanted(candidates: readonly TeachingCandidate[]): number {
  const wanted = Math.max(FEWEST_PHOTOS, groupsOf(candidates, 'block'), groupsOf(candidates, 'treatment'));
  return Math.min(candidates.length, MOST_PHOTOS, wanted);
}

/**
 * Photos that together stand for a rating date: as many blocks and treatments as can be, and among choices equal in
 * that, looks (contrast, brightness, spread of colours) that lie as far apart as can be.
 *
 * Looks at all choices where they are few; else exchanges one photo at a time while that helps, from seeded starts,
 * which finds a good choice and not surely the best. The same seed gives the same photos.
 *
 * @param count photos wanted @default teachingPhotosWanted
 */
export function proposeTeachingPhotos(
  candidates: readonly TeachingCandidate[],
  seed: number,
  count: number = teachingPhotosWanted(candidates),
): TeachingProposal {
  const distances = lookDistances(candidates);
  const worthOf = (chosen: readonly number[]): Worth => worth(candidates, distances, chosen);
  const size = candidates.length;
  const best =
    choicesOf(size, count) <= MOST_CHOICES
      ? bestOf(allChoices(size, count), worthOf)
      : bestOf(exchanged(size, count, worthOf, repeatableRandom(seed)), worthOf);
  const picked = [...best].sort((a, b) => a - b).map((index) => candidates[index]!);
  return {
    photoIds: picked.map(({ photoId }) => photoId),
    blocks: { covered: groupsOf(picked, 'block'), of: groupsOf(candidates, 'block') },
    treatments: { covered: groupsOf(picked, 'treatment'), of: groupsOf(candidates, 'treatment') },
  };
}

const groupsOf = (candidates: readonly TeachingCandidate[], field: 'block' | 'treatment'): number =>
  new Set(candidates.flatMap((candidate) => candidate[field] ?? [])).size;

/** What a choice is judged by: blocks and treatments, then the nearest two looks, then all of them. */
type Worth = readonly [groups: number, nearest: number, sum: number];

const isBetter = (a: Worth, b: Worth): boolean => {
  for (let i = 0; i < a.length; i += 1) if (a[i] !== b[i]) return a[i]! > b[i]!;
  return false;
};

function worth(
  candidates: readonly TeachingCandidate[],
  distances: readonly Float64Array[],
  chosen: readonly number[],
): Worth {
  const picked = chosen.map((index) => candidates[index]!);
  let nearest = Number.POSITIVE_INFINITY;
  let sum = 0;
  for (let i = 0; i < chosen.length; i += 1) {
    for (let j = 0; j < i; j += 1) {
      const distance = distances[chosen[i]!]![chosen[j]!]!;
      if (distance < nearest) nearest = distance;
      sum += distance;
    }
  }
  return [groupsOf(picked, 'block') + groupsOf(picked, 'treatment'), nearest, sum];
}

function bestOf(
  choices: Iterable<readonly number[]>,
  worthOf: (chosen: readonly number[]) => Worth,
): readonly number[] {
  let best: readonly number[] = [];
  let reached: Worth | null = null;
  for (const choice of choices) {
    const found = worthOf(choice);
    if (!reached || isBetter(found, reached)) [best, reached] = [choice, found];
  }
  return best;
}

/** How many ways there are to choose some of so many. */
function choicesOf(size: number, count: number): number {
  let choices = 1;
  for (let i = 0; i < count; i += 1) choices = (choices * (size - i)) / (i + 1);
  return choices;
}

/** Every way to choose so many, in their order. */
function* allChoices(size: number, count: number, from = 0): Generator<readonly number[]> {
  if (count === 0) yield [];
  for (let first = from; first <= size - count && count > 0; first += 1) {
    for (const rest of allChoices(size, count - 1, first + 1)) yield [first, ...rest];
  }
}

function* exchanged(
  size: number,
  count: number,
  worthOf: (chosen: readonly number[]) => Worth,
  random: Random,
): Generator<readonly number[]> {
  for (let start = 0; start < STARTS; start += 1) yield improved(drawn(size, count, random), size, worthOf);
}

/** The best exchange of one photo, again and again until none helps. */
function improved(
  start: readonly number[],
  size: number,
  worthOf: (chosen: readonly number[]) => Worth,
): readonly number[] {
  let chosen = start;
  let reached = worthOf(chosen);
  for (;;) {
    let next: readonly number[] | null = null;
    for (let place = 0; place < chosen.length; place += 1) {
      for (let other = 0; other < size; other += 1) {
        if (chosen.includes(other)) continue;
        const tried = chosen.with(place, other);
        const found = worthOf(tried);
        if (isBetter(found, reached)) [next, reached] = [tried, found];
      }
    }
    if (!next) return chosen;
    chosen = next;
  }
}

function drawn(size: number, count: number, random: Random): number[] {
  const left = Array.from({ length: size }, (_, index) => index);
  return Array.from(
    { length: Math.min(count, size) },
    () => left.splice(Math.floor(random() * left.length), 1)[0]!,
  );
}

/** Distances of looks, each of their parts in units of its spread over the date. */
function lookDistances(candidates: readonly TeachingCandidate[]): readonly Float64Array[] {
  const looks = candidates.map(({ look }) => [
    look.contrast,
    portableLog(look.lightGain),
    ...look.spread.map((value) => portableLog(value)),
  ]);
  const parts = looks[0]?.length ?? 0;
  const scales = Array.from({ length: parts }, (_, part) => {
    const values = looks.map((look) => look[part]!);
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
    return variance > 0 ? 1 / Math.sqrt(variance) : 0;
  });
  return looks.map((a) =>
    Float64Array.from(looks, (b) => {
      let sum = 0;
      for (let part = 0; part < parts; part += 1) sum += ((a[part]! - b[part]!) * scales[part]!) ** 2;
      return Math.sqrt(sum);
    }),
  );
}
