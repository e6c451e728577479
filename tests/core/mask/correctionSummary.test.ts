import { describe, expect, test } from 'vitest';
import { classCounts } from '../../../src/core/cover/classCounts.ts';
import { coverOfMask } from '../../../src/core/cover/coverOfMask.ts';
import { measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import { collectRuns } from '../../../src/core/geometry/pixelRuns.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { correctedMask } from '../../../src/core/mask/correctedMask.ts';
import { emptyCorrections } from '../../../src/core/mask/correctionLayer.ts';
import { correctionSummary } from '../../../src/core/mask/correctionSummary.ts';
import {
  type CorrectedPhoto,
  correctionsByTreatment,
  lopsidedWarnings,
} from '../../../src/core/mask/correctionsByTreatment.ts';
import { beginEdit, finishEdit, paintRuns } from '../../../src/core/mask/maskEdit.ts';
import { maskFrom } from './maskPictures.ts';

const at = (y: number, from: number, to: number) => collectRuns((visit) => visit(y, from, to));

describe('what was changed into what', () => {
  test('counted by hand', () => {
    const mask = maskFrom('RRRR/WWBB');
    const edit = beginEdit(mask);
    paintRuns(edit, at(0, 0, 3), { label: 2 });
    paintRuns(edit, at(1, 1, 3), { label: 2 });
    finishEdit(edit);
    const area = measuredArea(4, 2);
    const summary = correctionSummary(mask, area, classCounts(mask.automatic, area, 3))!;
    expect(summary).toEqual({
      pairs: [
        { from: 1, to: 2, pixels: 3, groundFraction: 3 / 8 },
        { from: 3, to: 2, pixels: 1, groundFraction: 1 / 8 },
      ],
      changedFraction: 4 / 8,
      confirmedFraction: 1 / 8,
      netChange: [-3 / 8, 4 / 8, -1 / 8],
    });
  });

  test('weighted by ground, the net change is corrected less automatic cover', () => {
    const corners = [photoPoint(30, 0), photoPoint(70, 0), photoPoint(100, 100), photoPoint(0, 100)] as const;
    const area = measuredArea(100, 100, { frame: { corners, sizeMm: [500, 500] } });
    const labels = area.inside.map((inside, i) => (inside === 0 ? 0 : 1 + (i % 3)));
    const automatic = { widthPx: 100, heightPx: 100, labels };
    const mask = correctedMask(automatic, emptyCorrections(100, 100), 3);
    const edit = beginEdit(mask);
    for (let y = 0; y < 40; y += 1) paintRuns(edit, at(y, 20, 80), { label: 2 });
    for (let y = 70; y < 80; y += 1) paintRuns(edit, at(y, 0, 100), { label: 3, onlyOver: 1 });
    finishEdit(edit);
    const summary = correctionSummary(mask, area, classCounts(automatic, area, 3))!;
    const before = coverOfMask(automatic, area, 3)!;
    const after = coverOfMask(mask.effective, area, 3)!;
    summary.netChange.forEach((change, i) => {
      expect(change).toBeCloseTo(after[i]!.coverFraction - before[i]!.coverFraction, 12);
    });
    expect(summary.netChange.every((change) => Math.abs(change) > 0.02)).toBe(true);
    expect(summary.changedFraction).toBeCloseTo(
      summary.pairs.reduce((sum, { groundFraction }) => sum + groundFraction, 0),
      12,
    );
  });

  test('corrections outside a moved frame do not count', () => {
    const mask = maskFrom('RRRR');
    const edit = beginEdit(mask);
    paintRuns(edit, at(0, 0, 4), { label: 3 });
    finishEdit(edit);
    const hidden = [photoPoint(0, 0), photoPoint(3, 0), photoPoint(3, 1), photoPoint(0, 1)];
    const area = measuredArea(4, 1, { ignored: [hidden] });
    const moved = correctedMask(maskFrom('...R').automatic, mask.corrections, 3);
    const summary = correctionSummary(moved, area, classCounts(moved.automatic, area, 3))!;
    expect(summary.pairs).toEqual([{ from: 1, to: 3, pixels: 1, groundFraction: 1 }]);
  });

  test('no ground, no share', () => {
    const area = measuredArea(2, 1, {
      ignored: [[photoPoint(0, 0), photoPoint(2, 0), photoPoint(2, 1), photoPoint(0, 1)]],
    });
    const mask = maskFrom('..');
    expect(correctionSummary(mask, area, classCounts(mask.automatic, area, 3))).toBeNull();
  });
});

describe('corrections by treatment', () => {
  const photo = (treatment: string, changed: number, reviewed = changed > 0): CorrectedPhoto => ({
    treatment,
    reviewed,
    changedFraction: changed,
    netChange: [-changed, changed, 0],
  });
  const warningsOf = (...photos: CorrectedPhoto[]) => lopsidedWarnings(correctionsByTreatment(photos));

  test('are means over all photos of the treatment, touched or not', () => {
    expect(
      correctionsByTreatment([photo('B', 0.04), photo('A', 0), photo('B', 0), photo('A', 0, true)]),
    ).toEqual([
      {
        treatment: 'B',
        photos: 2,
        reviewedPhotos: 1,
        correctedPhotos: 1,
        meanChangedFraction: 0.02,
        meanNetChange: [-0.02, 0.02, 0],
      },
      {
        treatment: 'A',
        photos: 2,
        reviewedPhotos: 1,
        correctedPhotos: 0,
        meanChangedFraction: 0,
        meanNetChange: [0, 0, 0],
      },
    ]);
  });

  test('a corrected photo was looked at even if nobody marked it so', () => {
    expect(correctionsByTreatment([photo('A', 0.1, false)])[0]!.reviewedPhotos).toBe(1);
  });

  test('nothing corrected, nothing to warn of, however unevenly photos were looked at', () => {
    expect(warningsOf(photo('A', 0, true), photo('B', 0))).toEqual([]);
    expect(warningsOf()).toEqual([]);
    expect(warningsOf(photo('A', 0.5))).toEqual([]);
  });

  test('all looked at and moved alike: no warning', () => {
    expect(warningsOf(photo('A', 0.03), photo('A', 0, true), photo('B', 0.02), photo('B', 0.01))).toEqual([]);
  });

  test('a treatment left out is named', () => {
    expect(warningsOf(photo('A', 0.01), photo('B', 0), photo('C', 0, true), photo('D', 0))).toEqual([
      { code: 'corrections-treatments-left-out', seen: ['A', 'C'], leftOut: ['B', 'D'] },
    ]);
  });

  test('a quarter more or less is let pass, beyond that it is uneven', () => {
    const four = (treatment: string, seen: number) =>
      Array.from({ length: 4 }, (_, i) => photo(treatment, i < seen ? 0.001 : 0));
    expect(warningsOf(...four('A', 4), ...four('B', 3))).toEqual([]);
    expect(warningsOf(...four('A', 4), ...four('B', 2), ...four('C', 3))).toEqual([
      {
        code: 'corrections-uneven-review',
        most: { treatment: 'A', fraction: 1 },
        least: { treatment: 'B', fraction: 0.5 },
      },
    ]);
  });

  test('corrections that move one treatment further than another are told by class', () => {
    expect(warningsOf(photo('A', 0.05), photo('B', 0, true), photo('C', 0.01))).toEqual([
      {
        code: 'corrections-move-comparison',
        label: 1,
        most: { treatment: 'B', fraction: 0 },
        least: { treatment: 'A', fraction: -0.05 },
      },
      {
        code: 'corrections-move-comparison',
        label: 2,
        most: { treatment: 'A', fraction: 0.05 },
        least: { treatment: 'B', fraction: 0 },
      },
    ]);
  });

  test('photos of different class sets are not mixed', () => {
    expect(() => correctionsByTreatment([photo('A', 0), { ...photo('B', 0), netChange: [0, 0] }])).toThrow(
      'photos of 3 and of 2 classes',
    );
  });
});
