import { expect, test } from 'vitest';
import { decodeLabelRuns, encodeLabelRuns } from '../../../src/core/raster/labelRuns.ts';
import { labelMaskFrom } from '../../support/labelMaskFrom.ts';
import { seededRandom } from '../../support/seededRandom.ts';

test('rows as runs, and how often they repeat', () => {
  const { labels, widthPx } = labelMaskFrom('RRB/RRB/RRB/...');
  // two of label 1, one of label 3, repeated twice; three of label 0, repeated never
  expect([...encodeLabelRuns(labels, widthPx)]).toEqual([1, 2, 3, 1, 2, 0, 3, 0]);
});

test('a run of 300 has its length in two bytes', () => {
  // 300 = 0b10_0101100: low seven bits 44 with the mark 128, then 2
  expect([...encodeLabelRuns(new Uint8Array(300).fill(7), 300)]).toEqual([7, 172, 2, 0]);
});

test.each([
  [1, 1],
  [5000, 3],
  [1, 400],
  [257, 129],
])('every mask comes back: %s x %s', (widthPx, heightPx) => {
  const random = seededRandom(widthPx * heightPx);
  for (const roughness of [0.001, 0.1, 1]) {
    const labels = new Uint8Array(widthPx * heightPx);
    for (let i = 0; i < labels.length; i += 1) {
      labels[i] = i > 0 && random() > roughness ? labels[i - 1]! : Math.floor(random() * 256);
    }
    const bytes = encodeLabelRuns(labels, widthPx);
    // not toEqual, which is slow on large arrays
    expect(Buffer.compare(decodeLabelRuns(bytes, widthPx, heightPx)!, labels)).toBe(0);
  }
});

test('bytes that make no mask of the size give none', () => {
  const { labels, widthPx, heightPx } = labelMaskFrom('RRB/RWB/RWB');
  const bytes = encodeLabelRuns(labels, widthPx);
  for (let length = 0; length < bytes.length; length += 1) {
    expect(decodeLabelRuns(bytes.subarray(0, length), widthPx, heightPx)).toBeNull();
  }
  expect(decodeLabelRuns(new Uint8Array([...bytes, 0]), widthPx, heightPx)).toBeNull();
  expect(decodeLabelRuns(bytes, widthPx + 1, heightPx)).toBeNull();
  expect(decodeLabelRuns(bytes, widthPx, heightPx - 1)).toBeNull();
  expect(decodeLabelRuns(new Uint8Array([1, 0, 1, 3, 0]), 3, 1)).toBeNull();
  expect(decodeLabelRuns(new Uint8Array([1, 255, 255, 255, 255, 255, 1]), 3, 1)).toBeNull();
});

test('labels that are no whole rows are refused', () => {
  expect(() => encodeLabelRuns(new Uint8Array(7), 3)).toThrow('7 labels are no whole rows of 3');
});
