import { describe, expect, it } from 'vitest';
import { boxSums } from '../../../src/core/features/blockSums.ts';
import { boxCounts, maskedBoxMeans } from '../../../src/core/features/maskedBoxMeans.ts';
import { seededRandom } from '../../support/seededRandom.ts';

/** The plain definition, four loops deep. */
function direct(
  plane: ArrayLike<number>,
  measured: Uint8Array,
  width: number,
  height: number,
  radius: number,
) {
  const counts: number[] = [];
  const sums: number[] = [];
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      let [count, sum] = [0, 0];
      for (let v = Math.max(0, y - radius); v <= Math.min(height - 1, y + radius); v += 1) {
        for (let u = Math.max(0, x - radius); u <= Math.min(width - 1, x + radius); u += 1) {
          if (measured[v * width + u] === 0) continue;
          count += 1;
          sum += plane[v * width + u]!;
        }
      }
      counts.push(count);
      sums.push(sum);
    }
  }
  return { counts, sums };
}

describe.each([
  [1, 1, 3],
  [7, 5, 0],
  [9, 4, 2],
  [5, 11, 6],
  [3, 3, 20],
])('%i x %i cells, radius %i', (width, height, radius) => {
  const random = seededRandom(width * 100 + height * 10 + radius);
  const measured = Uint8Array.from({ length: width * height }, () =>
    random() < 0.7 ? 1 + Math.floor(random() * 9) : 0,
  );
  const plane = Int16Array.from({ length: width * height }, () => Math.floor(random() * 30000) - 15000);
  const expected = direct(plane, measured, width, height, radius);
  const counts = boxCounts({ widthCells: width, heightCells: height, measured }, radius);
  const means = expected.sums.map((sum, cell) =>
    expected.counts[cell] === 0 ? 0 : Math.floor(sum / expected.counts[cell]! + 0.5),
  );

  it('counts the cells that count', () => expect([...counts]).toEqual(expected.counts));

  it('averages over them alone, whatever the others hold', () => {
    const only = measured.map((count) => (count === 0 ? 0 : 1));
    const got = maskedBoxMeans(plane, counts, width, height, radius, only);
    // one off where multiplying by the reciprocal and dividing round a half differently
    for (const [cell, mean] of means.entries()) expect(Math.abs(got[cell]! - mean)).toBeLessThanOrEqual(1);
    const cleared = plane.map((value, cell) => (only[cell] === 0 ? 0 : value));
    expect(maskedBoxMeans(cleared, counts, width, height, radius)).toEqual(got);
  });

  it('sums exactly', () => {
    const all = new Uint8Array(width * height).fill(1);
    const sums = boxSums(Int32Array.from(plane), width, height, radius);
    expect([...sums]).toEqual(direct(plane, all, width, height, radius).sums);
  });
});

it('refuses a radius that its counters cannot hold', () => {
  const region = { widthCells: 1, heightCells: 1, measured: new Uint8Array(1) };
  expect(() => boxCounts(region, 128)).toThrow('radius must be 0 to 127 cells, got 128');
});
