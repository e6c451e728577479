import { expect, test } from 'vitest';
import { toneForLabels } from '../../../src/core/trial/labelPicture.ts';
import { type LabelView, labelLooks, searchPlotLabels } from '../../../src/core/trial/labelSearch.ts';
import { writePlotLabel } from '../../../src/core/trial/plotLabel.ts';

const sizes = [
  [1000, 750],
  [2000, 1500],
  [4000, 3000],
  [3024, 4032],
  [8064, 6048],
  [9000, 400],
] as const;

test.each(sizes)(
  'every label of up to 400 pixels in %i x %i lies whole in a view of each look',
  (width, height) => {
    for (const views of labelLooks(width, height)) {
      for (const view of views) {
        expect([view.left, view.top, view.widthPx, view.heightPx].every(Number.isInteger)).toBe(true);
        expect(view.left + view.widthPx <= width && view.top + view.heightPx <= height).toBe(true);
        expect(Math.max(view.widthPx, view.heightPx) * view.scale).toBeLessThanOrEqual(2000);
      }
      const side = Math.min(400, height);
      for (let left = 0; left <= width - side; left += 100) {
        for (let top = 0; top <= height - side; top += 100) {
          const whole = views.some(
            (view) =>
              view.left <= left &&
              view.top <= top &&
              view.left + view.widthPx >= left + side &&
              view.top + view.heightPx >= top + side,
          );
          expect(whole, `${left}, ${top}`).toBe(true);
        }
      }
    }
  },
);

const ours = writePlotLabel({ trial: 'K7QF3M', plot: '101', place: null, ratingDate: null });

test('the quick look comes first, and the search ends with the first look that finds a label', async () => {
  const seen: LabelView[] = [];
  const found = await searchPlotLabels(4000, 3000, async (view) => {
    seen.push(view);
    return ['https://example.org', ...(seen.length >= 4 ? [ours] : [])];
  });
  expect(found).toEqual([ours]);
  expect(seen.slice(0, 3).map(({ scale, tone }) => [scale, tone])).toEqual([
    [0.5, 'even-light'],
    [0.5, 'as-seen'],
    [1, 'even-light'],
  ]);
  // the third look, at its nine parts, is finished: a neighbour's label may lie in another part
  expect(seen.length).toBe(2 + 9);
});

test('codes of other makers are no labels; a damaged label is handed on', async () => {
  const damaged = `${ours.slice(0, -1)}?`;
  expect(await searchPlotLabels(1000, 750, async () => ['https://example.org', damaged])).toEqual([damaged]);
  expect(await searchPlotLabels(1000, 750, async () => ['https://example.org'])).toEqual([]);
});

test('in even light the same ratio of light is the same step of tone, in sun and in shade', () => {
  const pixels = [216, 72, 24].flatMap((grey) => [grey, grey, grey, 255]);
  const toned = Uint8ClampedArray.from(pixels);
  toneForLabels(toned, 'even-light');
  const [sun, shade, ink] = [toned[0]!, toned[4]!, toned[8]!];
  // by hand: 255 ln(grey / 6 + 1) / ln(43.5), rounded
  expect([sun, shade, ink]).toEqual([244, 173, 109]);
  toneForLabels(toned, 'as-seen');
  expect([toned[0], toned[4], toned[8], toned[3]]).toEqual([sun, shade, ink, 255]);
});
