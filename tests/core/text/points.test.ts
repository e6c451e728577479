import { describe, expect, test } from 'vitest';
import type { AdjustmentRefusal } from '../../../src/core/cover/adjustment.ts';
import { framesAgainstPoints } from '../../../src/core/point-grid/countPlan.ts';
import type { EstimateNoteCode } from '../../../src/core/point-grid/pointEstimate.ts';
import {
  adjustmentReasonText,
  adjustmentRefusalText,
  belowText,
  estimateNoteText,
  estimateTargetText,
  framesAgainstPointsText,
  gapRuleForPointsText,
  oneMethodText,
  referencePhotosText,
  samplingDesignText,
  spacingAdviceText,
} from '../../../src/core/text/points.ts';

test('a class without hits is "below", never rounded to less than it may be', () => {
  expect(belowText(0.0295)).toBe('below 3.0 %');
  expect(belowText(0.0291)).toBe('below 3.0 %');
  expect(belowText(0.03)).toBe('below 3.0 %');
  expect(belowText(0.0004)).toBe('below 0.1 %');
  expect(belowText(0.95)).toBe('below 95 %');
  // from 10 on whole numbers are shown, and the bound still goes up
  expect(belowText(0.1031)).toBe('below 11 %');
  expect(belowText(0.9975)).toBe('below 100 %');
});

test('targets, designs and rules have words of their own', () => {
  const targets = (['frame', 'plot', 'treatment-mean'] as const).map(estimateTargetText);
  expect(new Set(targets).size).toBe(3);
  expect(samplingDesignText({ kind: 'transect-lines', lines: 1, pointsPerLine: 20, direction: 'down' })).toBe(
    '1 line of 20 points, at equal distances',
  );
  expect(samplingDesignText({ kind: 'jittered-grid', columns: 5, rows: 4 })).toContain('5 × 4');
  expect(gapRuleForPointsText({ kind: 'small-patches-to-surroundings', smallerThanMm: 5 })).toContain('5 mm');
  expect(gapRuleForPointsText({ kind: 'every-pixel' })).not.toContain('mm');
});

test('advice names the numbers and the way out', () => {
  const advice = { spacingMm: 25, plantDiameterMm: 40, mostPoints: 144 };
  expect(spacingAdviceText({ ...advice, code: 'closer-than-plants' })).toContain('144 points');
  expect(spacingAdviceText({ ...advice, code: 'closer-than-plants', mostPoints: 0 })).toContain('larger');
  expect(spacingAdviceText({ ...advice, code: 'wide-enough' })).toContain('25 mm');
  expect(framesAgainstPointsText(framesAgainstPoints(1, 100, { frame: 25, point: 1600 }))).toContain(
    'More frames buy more than more points',
  );
});

test('the photos that points do not speak for are told', () => {
  const drawn = { treatment: '3', photos: ['a', 'b'], drawnFrom: 2, withStrokes: 1, inReviewQueue: 4 };
  const text = referencePhotosText(drawn, 3);
  expect(text).toContain('2 photos drawn from 2');
  expect(text).toContain('Asked were 3');
  expect(text).toContain('1 with painted samples and 4 doubted or reviewed');
  expect(referencePhotosText({ ...drawn, withStrokes: 0, inReviewQueue: 0 }, 2)).not.toContain(
    'not spoken for',
  );
});

describe('codes', () => {
  const notes: EstimateNoteCode[] = [
    'no-points-judged',
    'frames-without-points',
    'one-frame',
    'lines-without-points',
    'one-line',
    'one-plot',
    'plots-without-points',
    'no-spread-seen',
    'indeterminate-many',
  ];
  test('each note has a sentence', () => {
    const sentences = notes.map((code) => estimateNoteText({ code, count: 12 }));
    expect(new Set(sentences).size).toBe(notes.length);
    expect(estimateNoteText({ code: 'indeterminate-many', count: 12 })).toContain('12 %');
  });

  test('each refusal names what is short and what to do', () => {
    const refusals: AdjustmentRefusal[] = [
      { ok: false, code: 'no-points' },
      { ok: false, code: 'stratum-too-few-points', classes: ['Moss'], fewest: 10 },
      { ok: false, code: 'too-few-photos', photos: 1, fewest: 2 },
      { ok: false, code: 'class-never-observed', classes: ['Moss'] },
      { ok: false, code: 'class-never-mapped', classes: ['Moss'] },
      { ok: false, code: 'mask-does-not-separate', classes: ['Moss'] },
    ];
    const sentences = refusals.map(adjustmentRefusalText);
    expect(new Set(sentences).size).toBe(refusals.length);
    refusals.forEach((refusal, i) => {
      if ('classes' in refusal) expect(sentences[i]).toContain('Moss');
    });
  });

  test('a test that finds nothing is not called a proof, and what it hardly saw is named', () => {
    const found = {
      p: [0.4],
      smallestP: 0.4,
      photos: 8,
      treatments: 2,
      hardlyTested: [{ treatment: '4', classId: 'weedy-grass', points: 6 }],
    };
    const text = adjustmentReasonText({
      way: 'pooled',
      reason: 'rates-not-different',
      test: found,
      treatments: [],
    });
    expect(text).toContain('0.400');
    expect(text).toContain('no proof');
    expect(text).toContain('weedy-grass in treatment 4 (6)');
    const others = (
      ['own-points-suffice', 'rates-differ', 'rates-untested', 'pooled-rates-unusable'] as const
    ).map((reason) => adjustmentReasonText({ way: 'per-treatment', reason, test: found, treatments: [] }));
    expect(new Set(others).size).toBe(4);
  });

  test('a method that some plots lack', () => {
    const text = oneMethodText({
      ok: false,
      code: 'method-missing',
      method: 'points',
      ratingDate: '2027-05-17',
      plots: ['102'],
      instead: ['automatic'],
    });
    expect(text).toContain('1 plot: 102');
    expect(text).toContain('automatic');
    expect(oneMethodText({ ok: true, method: 'points', plots: 16 })).toContain('16');
  });
});
