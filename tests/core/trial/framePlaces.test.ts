import { expect, test } from 'vitest';
import {
  cornersFromMark,
  drawFramePlaces,
  type FramePlan,
  framePlacesOf,
} from '../../../src/core/trial/framePlaces.ts';
import { repeatableRandom } from '../../../src/core/trial/repeatableRandom.ts';

const size = { grossWidthMm: 2000, grossLengthMm: 3000, netWidthMm: 1600, netLengthMm: 2600 };
const plan: FramePlan = {
  placesPerPlot: 3,
  draw: 'fixed',
  seed: 7,
  frameWidthMm: 500,
  frameLengthMm: 500,
  edgeMm: 100,
  apartMm: 50,
  measuredFrom: 'near-left',
  markedFrameCorner: 'near-left',
};

test('frames lie inside the net plot, off its edges and apart, on whole centimetres', () => {
  for (let seed = 0; seed < 300; seed++) {
    const drawn = drawFramePlaces(size, plan, repeatableRandom(seed));
    if (!drawn.ok) throw new Error(drawn.code);
    expect(drawn.places.map(({ place }) => place)).toEqual([1, 2, 3]);
    const inMm = drawn.places.map(({ acrossM, alongM }) => ({
      x: Math.round(acrossM * 1000),
      y: Math.round(alongM * 1000),
    }));
    for (const [index, { x, y }] of inMm.entries()) {
      // guard 200 mm + edge 100 mm on each side
      expect(x >= 300 && x + 500 <= 1700 && y >= 300 && y + 500 <= 2700).toBe(true);
      expect([x % 10, y % 10]).toEqual([0, 0]);
      for (const other of inMm.slice(index + 1)) {
        expect(Math.abs(other.x - x) >= 550 || Math.abs(other.y - y) >= 550).toBe(true);
      }
    }
  }
});

test('a single frame comes everywhere it may lie equally often', () => {
  // x on 91 steps 300..1200 mm: ten groups of 9 steps and the last step left out; 9 df, 0.999 quantile 27.88
  const counts = new Array<number>(10).fill(0);
  const random = repeatableRandom(3);
  for (let draw = 0; draw < 9100; draw++) {
    const drawn = drawFramePlaces(size, { ...plan, placesPerPlot: 1 }, random);
    if (!drawn.ok) throw new Error(drawn.code);
    const step = Math.round((drawn.places[0]!.acrossM * 1000 - 300) / 10);
    if (step < 90) counts[Math.floor(step / 9)]!++;
  }
  const total = counts.reduce((sum, count) => sum + count, 0);
  const chiSquare = counts.reduce((sum, count) => sum + (count - total / 10) ** 2 / (total / 10), 0);
  expect(chiSquare).toBeLessThan(27.88);
});

test('fixed places stay, drawn places change with the date, plots differ', () => {
  const fixed = (plot: string, date: string) => framePlacesOf(plot, date, size, plan);
  const drawn = (plot: string, date: string) =>
    framePlacesOf(plot, date, size, { ...plan, draw: 'each-date' });
  expect(fixed('101', '2027-04-12')).toEqual(fixed('101', '2027-05-17'));
  expect(fixed('101', '2027-04-12')).not.toEqual(fixed('102', '2027-04-12'));
  expect(drawn('101', '2027-04-12')).toEqual(drawn('101', '2027-04-12'));
  expect(drawn('101', '2027-04-12')).not.toEqual(drawn('101', '2027-05-17'));
});

test('what does not fit says so and is not squeezed', () => {
  const random = repeatableRandom(1);
  expect(drawFramePlaces(size, { ...plan, frameWidthMm: 1500 }, random)).toEqual({
    ok: false,
    code: 'frame-larger-than-plot',
  });
  const crowded = drawFramePlaces(size, { ...plan, placesPerPlot: 20 }, random);
  expect(crowded).toMatchObject({ ok: false, code: 'places-do-not-fit', asked: 20 });
  // 2 x 4 frames of 550 mm is the most that fits in 1400 x 2400 mm
  if (!crowded.ok && crowded.code === 'places-do-not-fit') {
    expect(crowded.found).toBeGreaterThan(3);
    expect(crowded.found).toBeLessThanOrEqual(8);
  }
  // exactly one place that the frame can have
  const tight = drawFramePlaces(
    size,
    { ...plan, placesPerPlot: 1, frameWidthMm: 1400, frameLengthMm: 2400 },
    random,
  );
  expect(tight).toEqual({ ok: true, places: [{ place: 1, acrossM: 0.3, alongM: 0.3 }] });
});

test('corners begin at the mark', () => {
  expect(cornersFromMark(['a', 'b', 'c', 'd'], 2)).toEqual(['c', 'd', 'a', 'b']);
  expect(() => cornersFromMark(['a', 'b', 'c', 'd'], 4)).toThrow('one of 0 to 3, got 4');
});
