import { describe, expect, test } from 'vitest';
import type { Adjustment, ReferencePhoto } from '../../../src/core/cover/adjustment.ts';
import { adjustPhotos, type PhotoToAdjust } from '../../../src/core/cover/adjustPhotos.ts';
import { invertErrorRates, pooledErrorRates } from '../../../src/core/cover/invertedErrorRates.ts';
import { repeatableRandom } from '../../../src/core/trial/repeatableRandom.ts';

const CLASSES = ['ryegrass', 'weedy-grass'];
/** Of 20 points on each class the mask calls 18 of ryegrass and 16 of weedy grass right, on every photo. */
const ALIKE = [
  [18, 4],
  [2, 16],
];
const random = () => repeatableRandom(1);

const reference = (treatment: string, counts: readonly (readonly number[])[], photos = 4): ReferencePhoto[] =>
  Array.from({ length: photos }, (_, index) => ({ photo: `${treatment}-${index}`, treatment, counts }));

const mapped = (treatment: string, weedy: readonly number[], counts: PhotoToAdjust['counts'] = null) =>
  weedy.map(
    (share, index): PhotoToAdjust => ({
      photo: `${treatment}-${index}`,
      treatment,
      mappedFraction: [1 - share, share],
      counts,
    }),
  );

const weedyOf = (adjustment: Adjustment): number => {
  if (!adjustment.ok) throw new Error(adjustment.code);
  return adjustment.classes[1]!.coverFraction;
};

describe('adjusted cover photo by photo', () => {
  test('from own points where every photo has enough of them', () => {
    const photos = mapped('1', [0.45, 0.5], ALIKE);
    const { way, reason, photos: adjusted } = adjustPhotos(photos, reference('1', ALIKE), CLASSES, random());
    expect([way, reason]).toEqual(['own-points', 'own-points-suffice']);
    // by hand: 0.55 x 4/22 + 0.45 x 16/18
    expect(weedyOf(adjusted[0]!.adjustment)).toBeCloseTo((0.55 * 4) / 22 + (0.45 * 16) / 18, 12);
  });

  test('pooled where one lacks them: all photos of the date in the same way, target the frame', () => {
    const photos = [...mapped('1', [0.45, 0.3], ALIKE), ...mapped('2', [0.2, 0.4])];
    const known = [...reference('1', ALIKE), ...reference('2', ALIKE)];
    const { way, photos: adjusted } = adjustPhotos(photos, known, CLASSES, random());
    expect(way).toBe('pooled');
    // by hand: share = 0.8 w + 0.1 (1 - w), so w = (share - 0.1) / 0.7
    photos.forEach(({ mappedFraction }, index) => {
      expect(weedyOf(adjusted[index]!.adjustment)).toBeCloseTo((mappedFraction[1]! - 0.1) / 0.7, 12);
    });
    expect(adjusted.every(({ adjustment }) => adjustment.ok && adjustment.target === 'frame')).toBe(true);
    // inversion is linear: the mean of a treatment's photos is the inverted mean
    const rates = pooledErrorRates(known, CLASSES);
    if (!rates.ok) throw new Error(rates.code);
    const own = adjusted.slice(2).map(({ adjustment }) => weedyOf(adjustment));
    const ofMean = invertErrorRates(rates, { mappedFraction: [0.7, 0.3], photos: 2 });
    expect((own[0]! + own[1]!) / 2).toBeCloseTo(weedyOf(ofMean), 12);
  });

  test('a treatment without any point is refused, also under pooled rates', () => {
    const photos = [...mapped('1', [0.45]), ...mapped('2', [0.2]), ...mapped('3', [0.2])];
    const known = [...reference('1', ALIKE), ...reference('2', ALIKE)];
    const { way, photos: adjusted } = adjustPhotos(photos, known, CLASSES, random());
    expect(way).toBe('pooled');
    expect(adjusted.map(({ adjustment }) => adjustment.ok)).toEqual([true, true, false]);
    expect(adjusted[2]!.adjustment).toMatchObject({ code: 'no-points' });
  });

  test('rates that differ between treatments are not pooled', () => {
    const darkened = [
      [20, 16],
      [0, 4],
    ];
    const photos = [...mapped('1', [0.45], ALIKE), ...mapped('2', [0.2])];
    const known = [...reference('1', ALIKE), ...reference('2', darkened)];
    const { way, reason, photos: adjusted } = adjustPhotos(photos, known, CLASSES, random());
    expect([way, reason]).toEqual(['own-points', 'rates-differ']);
    expect(adjusted.map(({ adjustment }) => adjustment.ok)).toEqual([true, false]);
  });
});
