import { expect, test } from 'vitest';
import { classCounts } from '../../../src/core/cover/classCounts.ts';
import { measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import { collectRuns } from '../../../src/core/geometry/pixelRuns.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { beginEdit, finishEdit, paintRuns } from '../../../src/core/mask/maskEdit.ts';
import { updateCounts } from '../../../src/core/mask/updateCounts.ts';
import { maskFrom } from './maskPictures.ts';

test('only the area given is counted, be it smaller than what the mask labels', () => {
  const mask = maskFrom('RRWW/RRWW');
  const hidden = [photoPoint(1, 0), photoPoint(3, 0), photoPoint(3, 1), photoPoint(1, 1)];
  const area = measuredArea(4, 2, { ignored: [hidden] });
  const before = classCounts(mask.automatic, area, 3);
  const edit = beginEdit(mask);
  paintRuns(
    edit,
    collectRuns((visit) => visit(0, 0, 4)),
    { label: 3 },
  );
  const after = updateCounts(before, finishEdit(edit)!, mask.automatic, area);
  expect([[...before.pixels], [...after.pixels]]).toEqual([
    [0, 3, 3, 0],
    [0, 2, 2, 2],
  ]);
  expect(after).toEqual(classCounts(mask.effective, area, 3));
});
