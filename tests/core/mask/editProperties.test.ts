import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type ClassCounts, classCounts } from '../../../src/core/cover/classCounts.ts';
import { coverOfCounts, coverOfMask } from '../../../src/core/cover/coverOfMask.ts';
import { type MeasuredArea, measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import { collectRuns } from '../../../src/core/geometry/pixelRuns.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { forEachPolygonRun } from '../../../src/core/geometry/polygonRuns.ts';
import { applyPatch } from '../../../src/core/mask/applyPatch.ts';
import { beginStroke } from '../../../src/core/mask/brushStroke.ts';
import { connectedPatch } from '../../../src/core/mask/connectedPatch.ts';
import { type CorrectedMask, correctedMask } from '../../../src/core/mask/correctedMask.ts';
import { decodePatch, encodeCorrections, encodePatch } from '../../../src/core/mask/correctionBytes.ts';
import { correctionAt, effectiveLabel, emptyCorrections } from '../../../src/core/mask/correctionLayer.ts';
import { type CorrectionPatch, invertPatch } from '../../../src/core/mask/correctionPatch.ts';
import {
  abandonEdit,
  beginEdit,
  finishEdit,
  type MaskEdit,
  paintRuns,
} from '../../../src/core/mask/maskEdit.ts';
import { smoothOutline } from '../../../src/core/mask/smoothOutline.ts';
import { updateCounts } from '../../../src/core/mask/updateCounts.ts';
import type { LabelMask } from '../../../src/core/raster/labelMask.ts';

// three by two tiles, the last ones cut by the photo's edge; a tilted frame, so that ground weights differ
const WIDTH = 150;
const HEIGHT = 100;
const CLASSES = 3;
const RUNS = { seed: 20270504, numRuns: 60 };

const area: MeasuredArea = measuredArea(WIDTH, HEIGHT, {
  frame: {
    corners: [photoPoint(30, 8), photoPoint(120, 5), photoPoint(146, 95), photoPoint(4, 90)],
    sizeMm: [500, 400],
  },
  ignored: [[photoPoint(60, 40), photoPoint(80, 40), photoPoint(70, 60)]],
});

// in eighths of a pixel: fc.double would give hardly anything but the ends of its range and zero
const eighths = (from: number, to: number) => fc.integer({ min: from * 8, max: to * 8 }).map((n) => n / 8);
const coordinate = fc.record({ x: eighths(-10, WIDTH + 10), y: eighths(-10, HEIGHT + 10) });
const points = (minLength: number) => fc.array(coordinate, { minLength, maxLength: 5 });
const paint = fc.record({
  label: fc.integer({ min: 0, max: CLASSES }),
  onlyOver: fc.option(fc.integer({ min: 1, max: CLASSES })),
});
const gesture = fc.oneof(
  fc.record({
    kind: fc.constant('brush' as const),
    points: points(1),
    paint,
    radiusPx: eighths(0, 20),
  }),
  fc.record({ kind: fc.constant('polygon' as const), points: points(3), paint }),
  fc.record({ kind: fc.constant('patch' as const), points: points(1), paint }),
  fc.record({
    kind: fc.constant('smooth' as const),
    points: points(3),
    radiusPx: fc.integer({ min: 0, max: 6 }),
  }),
);
type Gesture = typeof gesture extends fc.Arbitrary<infer Value> ? Value : never;

/** Speckles and larger pieces, so that runs are short in some places and long in others. */
const automaticMask = fc.integer({ min: 1, max: 2 ** 30 }).map((seed): LabelMask => {
  const labels = area.inside.map((inside, i) => {
    const [x, y] = [i % WIDTH, Math.floor(i / WIDTH)];
    const piece = (Math.floor(x / 13) * 7 + Math.floor(y / 11) * 5 + seed) % 4;
    const speckle = Math.imul(i + seed, 0x9e3779b1) >>> 28;
    return inside === 0 ? 0 : 1 + (piece === 3 ? speckle % CLASSES : piece % CLASSES);
  });
  return { widthPx: WIDTH, heightPx: HEIGHT, labels };
});

function perform(edit: MaskEdit, gesture: Gesture): void {
  const at = gesture.points.map(({ x, y }) => photoPoint(x, y));
  const outline = () => collectRuns((visit) => forEachPolygonRun(at, WIDTH, HEIGHT, visit));
  switch (gesture.kind) {
    case 'brush': {
      const stroke = beginStroke(edit, gesture.paint);
      for (const point of at) stroke.moveTo({ at: point, radiusPx: gesture.radiusPx });
      return;
    }
    case 'polygon':
      paintRuns(edit, outline(), gesture.paint);
      return;
    case 'patch':
      paintRuns(edit, connectedPatch(edit.mask.effective, at[0]!), gesture.paint);
      return;
    case 'smooth':
      smoothOutline(edit, outline(), gesture.radiusPx);
  }
}

const editAll = (mask: CorrectedMask, gestures: readonly Gesture[]): CorrectionPatch[] =>
  gestures.flatMap((gesture) => {
    const edit = beginEdit(mask);
    perform(edit, gesture);
    return finishEdit(edit) ?? [];
  });

const fresh = (automatic: LabelMask) => correctedMask(automatic, emptyCorrections(WIDTH, HEIGHT), CLASSES);
const same = (a: Uint8Array, b: Uint8Array) => Buffer.compare(a, b) === 0;

const scenario = [automaticMask, fc.array(gesture, { minLength: 1, maxLength: 8 })] as const;

test('undoing every edit leaves nothing; redoing gives the same bytes', () => {
  let changed = 0;
  fc.assert(
    fc.property(...scenario, (automatic, gestures) => {
      const mask = fresh(automatic);
      const patches = editAll(mask, gestures);
      const bytes = encodeCorrections(mask.corrections);
      const labels = mask.effective.labels.slice();
      changed += patches.length;

      for (const patch of patches.toReversed()) applyPatch(mask, invertPatch(patch));
      expect(mask.corrections.tiles.size).toBe(0);
      expect(same(mask.effective.labels, automatic.labels)).toBe(true);

      for (const patch of patches) applyPatch(mask, patch);
      expect(same(encodeCorrections(mask.corrections), bytes)).toBe(true);
      expect(same(mask.effective.labels, labels)).toBe(true);
    }),
    RUNS,
  );
  // most of the random gestures do change something
  expect(changed).toBeGreaterThan(RUNS.numRuns);
});

test('one edit and its undo give the bytes from before, whatever was corrected before', () => {
  fc.assert(
    fc.property(...scenario, gesture, (automatic, gestures, last) => {
      const mask = fresh(automatic);
      editAll(mask, gestures);
      const before = encodeCorrections(mask.corrections);
      const [patch] = editAll(mask, [last]);
      if (patch) applyPatch(mask, invertPatch(patch));
      expect(same(encodeCorrections(mask.corrections), before)).toBe(true);

      const edit = beginEdit(mask);
      perform(edit, last);
      abandonEdit(edit);
      expect(same(encodeCorrections(mask.corrections), before)).toBe(true);
      expect(
        same(mask.effective.labels, correctedMask(automatic, mask.corrections, CLASSES).effective.labels),
      ).toBe(true);
    }),
    RUNS,
  );
});

test('what counts is the correction or else the automatic label, and nothing changes outside the measured area', () => {
  fc.assert(
    fc.property(...scenario, (automatic, gestures) => {
      const mask = fresh(automatic);
      editAll(mask, gestures);
      for (let i = 0; i < WIDTH * HEIGHT; i += 1) {
        const correction = correctionAt(mask.corrections, i % WIDTH, Math.floor(i / WIDTH));
        if (mask.effective.labels[i] !== effectiveLabel(automatic.labels[i]!, correction)) {
          throw new Error(`pixel ${i}: ${mask.effective.labels[i]} with correction ${correction}`);
        }
        if (area.inside[i] === 0 && (mask.effective.labels[i] !== 0 || correction !== 0)) {
          throw new Error(`pixel ${i} lies outside`);
        }
      }
    }),
    RUNS,
  );
});

test('class counts kept in step by patches equal a recount; classes add up to the measured area', () => {
  fc.assert(
    fc.property(...scenario, (automatic, gestures) => {
      const mask = fresh(automatic);
      let counts: ClassCounts = classCounts(automatic, area, CLASSES);
      const patches = editAll(mask, gestures);
      for (const patch of patches) counts = updateCounts(counts, patch, automatic, area);
      expect(counts).toEqual(classCounts(mask.effective, area, CLASSES));
      expect(coverOfCounts(counts)).toEqual(coverOfMask(mask.effective, area, CLASSES));
      expect(counts.pixels.reduce((sum, value) => sum + value)).toBe(area.measuredPixels);
      for (const patch of patches.toReversed()) {
        counts = updateCounts(counts, invertPatch(patch), automatic, area);
      }
      expect(counts).toEqual(classCounts(automatic, area, CLASSES));
    }),
    RUNS,
  );
});

test('a patch survives its bytes, and its box is the smallest round what changed', () => {
  fc.assert(
    fc.property(...scenario, gesture, (automatic, gestures, last) => {
      const mask = fresh(automatic);
      editAll(mask, gestures);
      const before = fresh(automatic);
      editAll(before, gestures);
      const [patch] = editAll(mask, [last]);
      if (!patch) return;
      expect(decodePatch(encodePatch(patch), mask.automatic)).toEqual({ ok: true, value: patch });
      expect(invertPatch(invertPatch(patch))).toEqual(patch);

      let [left, top, right, bottom, changedPixels] = [WIDTH, HEIGHT, 0, 0, 0];
      for (let y = 0; y < HEIGHT; y += 1) {
        for (let x = 0; x < WIDTH; x += 1) {
          if (correctionAt(mask.corrections, x, y) === correctionAt(before.corrections, x, y)) continue;
          changedPixels += 1;
          [left, top] = [Math.min(left, x), Math.min(top, y)];
          [right, bottom] = [Math.max(right, x + 1), Math.max(bottom, y + 1)];
        }
      }
      expect(patch.changedPixels).toBe(changedPixels);
      expect(patch.dirtyBox).toEqual({ left, top, right, bottom });
    }),
    RUNS,
  );
});
