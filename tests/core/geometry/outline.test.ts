import { expect, test } from 'vitest';
import { measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import { outlineWithin, outsideOf } from '../../../src/core/geometry/outline.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';

const outline = [photoPoint(10, 10), photoPoint(50, 12.5), photoPoint(40, 44), photoPoint(12, 38)];

test('what is measured inside an outline is what the outline itself holds, to the pixel', () => {
  const inside = measuredArea(60, 50, { ignored: [outsideOf(outline, 60, 50)] });
  const outside = measuredArea(60, 50, { ignored: [outline] });
  expect(inside.measuredPixels).toBeGreaterThan(900);
  expect(inside.inside.every((value, i) => value + outside.inside[i]! === 1)).toBe(true);
});

test('an outline is read back from the area that leaves it; other areas are none', () => {
  expect(outlineWithin(outsideOf(outline, 60, 50), 60, 50)).toEqual(outline);
  expect(outlineWithin(outline, 60, 50)).toBeNull();
  // of a photo of another size: not the outside of anything in this one
  expect(outlineWithin(outsideOf(outline, 60, 50), 80, 50)).toBeNull();
  const edge = [photoPoint(0, 0), photoPoint(60, 0), photoPoint(60, 50), photoPoint(0, 50)];
  expect(outlineWithin(edge, 60, 50)).toBeNull();
});
