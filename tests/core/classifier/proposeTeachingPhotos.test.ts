import { expect, test } from 'vitest';
import {
  proposeTeachingPhotos,
  type TeachingCandidate,
  teachingPhotosWanted,
} from '../../../src/core/classifier/proposeTeachingPhotos.ts';
import { repeatableRandom } from '../../../src/core/trial/repeatableRandom.ts';

/** Four blocks of four treatments in a Latin square, looks drawn from a seed; block 4 lies in shade. */
function date(seed: number): TeachingCandidate[] {
  const random = repeatableRandom(seed);
  return Array.from({ length: 16 }, (_, i) => {
    const block = Math.floor(i / 4);
    return {
      photoId: `${block + 1}0${(i % 4) + 1}`,
      block: String(block + 1),
      treatment: String((i + block) % 4),
      look: {
        contrast: 0.2 + random() * 0.3,
        lightGain: block === 3 ? 2.5 : 1 + 0.1 * random(),
        spread: Array.from({ length: 5 }, () => 1 + 4 * random()),
      },
    };
  });
}

test('four photos cover every block and every treatment of a date', () => {
  const proposal = proposeTeachingPhotos(date(1), 1);
  expect(proposal).toMatchObject({ blocks: { covered: 4, of: 4 }, treatments: { covered: 4, of: 4 } });
  expect(proposal.photoIds).toHaveLength(4);
  expect(new Set(proposal.photoIds.map((id) => id[0])).size).toBe(4);
});

test('the same seed gives the same photos, whatever was asked before', () => {
  expect(proposeTeachingPhotos(date(1), 7)).toEqual(proposeTeachingPhotos(date(1), 7));
});

test.each([1, 2, 3, 4])('no choice of four of date %i is better: all 1820 were looked at', (seed) => {
  const candidates = date(seed);
  const chosen = proposeTeachingPhotos(candidates, 1).photoIds;
  const parts = candidates.map(({ look }) => [
    look.contrast,
    Math.log(look.lightGain),
    ...look.spread.map(Math.log),
  ]);
  const scale = parts[0]!.map((_, part) => {
    const values = parts.map((look) => look[part]!);
    const mean = values.reduce((a, b) => a + b) / 16;
    return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / 16);
  });
  const distance = (a: number, b: number) =>
    Math.hypot(...parts[a]!.map((value, part) => (value - parts[b]![part]!) / scale[part]!));
  const nearestOf = (four: readonly number[]) => {
    const pairs = four.flatMap((a, i) => four.slice(0, i).map((b) => distance(a, b)));
    return Math.min(...pairs);
  };
  let best = 0;
  for (let a = 0; a < 16; a += 1) {
    for (let b = 0; b < a; b += 1) {
      for (let c = 0; c < b; c += 1) {
        for (let d = 0; d < c; d += 1) {
          const four = [a, b, c, d];
          const groups = (field: 'block' | 'treatment') =>
            new Set(four.map((i) => candidates[i]![field])).size;
          if (groups('block') + groups('treatment') === 8) best = Math.max(best, nearestOf(four));
        }
      }
    }
  }
  const own = chosen.map((id) => candidates.findIndex(({ photoId }) => photoId === id));
  expect(nearestOf(own)).toBeCloseTo(best, 10);
});

test('without a trial the looks decide: the photo in shade is among them', () => {
  const unknown = date(2).map((one) => ({ ...one, block: null, treatment: null }));
  const { photoIds, blocks } = proposeTeachingPhotos(unknown, 1);
  expect(blocks).toEqual({ covered: 0, of: 0 });
  expect(photoIds.some((id) => id.startsWith('4'))).toBe(true);
});

test('as many photos as blocks or treatments need, four to eight, and never more than there are', () => {
  const of = (blocks: number, treatments: number) =>
    Array.from({ length: blocks * treatments }, (_, i) => ({
      ...date(1)[0]!,
      photoId: String(i),
      block: String(i % blocks),
      treatment: String(Math.floor(i / blocks)),
    }));
  expect([of(3, 2), of(4, 6), of(4, 12), of(1, 2)].map(teachingPhotosWanted)).toEqual([4, 6, 8, 2]);
  expect(proposeTeachingPhotos(of(4, 6), 1)).toMatchObject({ treatments: { covered: 6, of: 6 } });
  expect(proposeTeachingPhotos([], 1).photoIds).toEqual([]);
});
