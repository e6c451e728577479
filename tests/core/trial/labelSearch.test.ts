import { expect, test } from 'vitest';
import { greyOf, type LabelView, labelPicture } from '../../../src/core/trial/labelPicture.ts';
import { labelLooks, searchPlotLabels } from '../../../src/core/trial/labelSearch.ts';
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
        expect(Math.max(view.widthPx, view.heightPx) / view.reduction).toBeLessThanOrEqual(2000);
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

const blank = (widthPx: number, heightPx: number) => ({
  widthPx,
  heightPx,
  grey: new Uint8Array(widthPx * heightPx),
});

test('the quick look comes first, and the search ends with the first look that finds a label', async () => {
  const seen: LabelView[] = [];
  const found = await searchPlotLabels(blank(4000, 3000), async (_, view) => {
    seen.push(view);
    return ['https://example.org', ...(seen.length >= 4 ? [ours] : [])];
  });
  expect(found).toEqual([ours]);
  expect(seen.slice(0, 3).map(({ reduction, tone }) => [reduction, tone])).toEqual([
    [2, 'even-light'],
    [2, 'as-seen'],
    [1, 'even-light'],
  ]);
  // the third look, at its nine parts, is finished: a neighbour's label may lie in another part
  expect(seen.length).toBe(2 + 9);
});

test('codes of other makers are no labels; a damaged label is handed on', async () => {
  const damaged = `${ours.slice(0, -1)}?`;
  expect(await searchPlotLabels(blank(1000, 750), async () => ['https://example.org', damaged])).toEqual([
    damaged,
  ]);
  expect(await searchPlotLabels(blank(1000, 750), async () => ['https://example.org'])).toEqual([]);
});

test('in even light the same ratio of light is the same step of tone, in sun and in shade', () => {
  const plane = { widthPx: 3, heightPx: 1, grey: Uint8Array.of(216, 72, 24) };
  const view = { left: 0, top: 0, widthPx: 3, heightPx: 1, reduction: 1 };
  // by hand: 255 ln(grey / 6 + 1) / ln(43.5), rounded
  const toned = labelPicture(plane, { ...view, tone: 'even-light' });
  expect([...toned.data]).toEqual([244, 173, 109].flatMap((grey) => [grey, grey, grey, 255]));
  const seen = labelPicture(plane, { ...view, tone: 'as-seen' });
  expect([...seen.data]).toEqual([216, 72, 24].flatMap((grey) => [grey, grey, grey, 255]));
});

test('a reduced view is made of the means of its squares; grey is luma', () => {
  const greys = [10, 20, 30, 40, 99, 50, 60, 70, 81, 99, 5, 5, 5, 5, 5];
  const plane = { widthPx: 5, heightPx: 3, grey: Uint8Array.from(greys) };
  const view = { left: 0, top: 0, widthPx: 5, heightPx: 3, reduction: 2, tone: 'as-seen' } as const;
  const { width, height, data } = labelPicture(plane, view);
  // by hand: (10 + 20 + 50 + 60) / 4 = 35, (30 + 40 + 70 + 81) / 4 = 55.25
  expect([width, height, data[0], data[4]]).toEqual([2, 1, 35, 55]);
  const data3 = Uint8ClampedArray.of(255, 0, 0, 255, 0, 255, 0, 255, 0, 0, 255, 255);
  // BT.601 in 256ths: 77, 150, 29
  expect([...greyOf({ widthPx: 3, heightPx: 1, data: data3 }).grey]).toEqual([76, 149, 28]);
});
