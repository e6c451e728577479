import { expect, test } from 'vitest';
import { photoPoint } from '../../src/core/geometry/points.ts';
import { loadOpenCv } from '../../src/vision/loadOpenCv.ts';
import { withMats } from '../../src/vision/mats.ts';
import { rectify } from '../../src/vision/rectify.ts';

const cv = await loadOpenCv();

test('a frame along the pixel edges is cut out pixel for pixel', () => {
  const data = new Uint8ClampedArray(6 * 4 * 4).map((_, i) => (i % 4 === 3 ? 255 : (i * 7) % 251));
  const view = rectify(
    cv,
    { widthPx: 6, heightPx: 4, data },
    [photoPoint(1, 1), photoPoint(5, 1), photoPoint(5, 3), photoPoint(1, 3)],
    { widthPx: 4, heightPx: 2, smooth: false },
  );
  const expected = [1, 2].flatMap((y) => [...data.slice((y * 6 + 1) * 4, (y * 6 + 5) * 4)]);
  expect([...view.data]).toEqual(expected);
});

test('an exception of OpenCV becomes an Error with its message, and kept Mats are deleted', () => {
  let kept: { isDeleted(): boolean } | undefined;
  const misuse = () =>
    withMats(cv, (keep) => {
      const empty = keep(new cv.Mat());
      kept = empty;
      cv.cvtColor(empty, empty, cv.COLOR_RGBA2GRAY);
    });
  expect(misuse).toThrow(/OpenCV: .*empty/);
  expect(kept?.isDeleted()).toBe(true);
});
