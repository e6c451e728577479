import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyGapRule } from '../../../src/core/mask/gapRule.ts';
import { openByDisc } from '../../../src/core/mask/openByDisc.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import type { GapRule } from '../../../src/core/trial/trial.ts';
import { labelMaskFrom } from '../../support/labelMaskFrom.ts';

const RUNS = { seed: 20270504, numRuns: 60 };
const smallerThan = (smallerThanMm: number): GapRule => ({
  kind: 'small-patches-to-surroundings',
  smallerThanMm,
});

/** A picture under the rule, one mm a cell. */
function ruled(picture: string, rule: GapRule, millimetresPerCell: number | null = 1): string | null {
  const { labels, widthPx, heightPx } = labelMaskFrom(picture);
  const size = { widthCells: widthPx, heightCells: heightPx, millimetresPerCell };
  const out = applyGapRule(labels, size, DEFAULT_CLASSES, rule);
  return out && pictureOf(out, widthPx);
}

function pictureOf(labels: Uint8Array, width: number): string {
  const rows: string[] = [];
  for (let at = 0; at < labels.length; at += width) {
    rows.push(Array.from(labels.subarray(at, at + width), (label) => '.RWB'[label]).join(''));
  }
  return rows.join('/');
}

describe('counted by hand, one mm a cell', () => {
  const spot = 'RRRRRRR/RRRRRRR/RRBBRRR/RRBBRRR/RRRRRRR/RRRRRRR';

  test('a spot two mm across goes to what surrounds it from three mm on, and stays at two', () => {
    expect(ruled(spot, smallerThan(2))).toBe(spot);
    expect(ruled(spot, smallerThan(2.1))).toBe(spot.replaceAll('B', 'R'));
    expect(ruled(spot, smallerThan(3))).toBe(spot.replaceAll('B', 'R'));
  });

  test('a long crack is as wide as it is across, not as it is long', () => {
    const crack = 'RRRRRRRRR/WWWWWWWWW/BBBBBBBBB/WWWWWWWWW/RRRRRRRRR';
    expect(ruled(crack, smallerThan(2))).toBe(crack.replaceAll('B', 'W'));
    expect(ruled(crack, smallerThan(1))).toBe(crack);
  });

  test('a bridge goes, the patches it joins stay', () => {
    // discs of three are squares of three; the bridge is one cell wide
    expect(ruled('BBBRRBBB/BBBBBBBB/BBBRRBBB/RRRRRRRR', smallerThan(3))).toBe(
      'BBBRRBBB/BBBRRBBB/BBBRRBBB/RRRRRRRR',
    );
  });

  test('each cell of a gap goes to what is nearest; of equal ones to the first class', () => {
    expect(ruled('RRRRRRR/RBBBBBW/RRRWWWW', smallerThan(4))).toBe('RRRRRRR/RRRRRWW/RRRWWWW');
    expect(ruled('WWWW/WBBR/RRRR', smallerThan(4))).toBe('WWWW/WWRR/RRRR');
    expect(ruled('WBR', smallerThan(2))).toBe('WRR');
    expect(ruled('RRR/WBW/RRR', smallerThan(2))).toBe('RRR/WRW/RRR');
  });

  test('what is not measured may be ground: a gap at the edge is judged by the part that is seen', () => {
    expect(ruled('RRRRR/RRRRR/BBBBB', smallerThan(3))).toBe('RRRRR/RRRRR/BBBBB');
    expect(ruled('RRRRRR/RB..RR/RB..RR/RB..RR/RRRRRR', smallerThan(3))).toBe(
      'RRRRRR/RB..RR/RB..RR/RB..RR/RRRRRR',
    );
  });

  test('ground all round has nothing to go to', () => {
    expect(ruled('BB/BB', smallerThan(50))).toBe('BB/BB');
    expect(ruled('.../.B./...', smallerThan(50))).toBe('.../.B./...');
  });

  test('all classes of ground count as one', () => {
    const parted = [
      ...DEFAULT_CLASSES,
      { ...DEFAULT_CLASSES[2]!, id: 'thatch', startRole: null, reportingGroup: 'bare-ground' },
    ];
    const { labels, widthPx, heightPx } = labelMaskFrom('RRRRR/RBBBR/RTTTR/RBBBR/RRRRR', 'RWBT');
    const size = { widthCells: widthPx, heightCells: heightPx, millimetresPerCell: 1 };
    expect(applyGapRule(labels, size, parted, smallerThan(3))).toBe(labels);
    expect(Array.from(new Set(applyGapRule(labels, size, parted, smallerThan(4))))).toEqual([1]);
  });

  test('without a scale, and without a rule', () => {
    expect(ruled(spot, smallerThan(5), null)).toBeNull();
    expect(ruled(spot, { kind: 'every-pixel' }, null)).toBe(spot);
    expect(ruled(spot, smallerThan(5), 0.5)).toBe(spot.replaceAll('B', 'R'));
    expect(ruled(spot, smallerThan(5), 2.5)).toBe(spot);
  });
});

describe('the disc', () => {
  /** The definition itself: every place of the block, every cell of the disc. */
  function openedByHand(marked: Uint8Array, width: number, height: number, n: number): Uint8Array {
    const disc: [number, number][] = [];
    for (let y = 0; y < n; y += 1) {
      for (let x = 0; x < n; x += 1) {
        if ((2 * x + 1 - n) ** 2 + (2 * y + 1 - n) ** 2 <= n * n) disc.push([x, y]);
      }
    }
    const out = new Uint8Array(width * height);
    const isWithin = (x: number, y: number) => x >= 0 && y >= 0 && x < width && y < height;
    for (let top = -n; top <= height; top += 1) {
      for (let left = -n; left <= width; left += 1) {
        const cells = disc.map(([x, y]) => [left + x, top + y] as const).filter(([x, y]) => isWithin(x, y));
        if (cells.some(([x, y]) => marked[y * width + x] === 1)) continue;
        for (const [x, y] of cells) out[y * width + x] = 1;
      }
    }
    return out;
  }

  test('moved about by its definition it covers the same cells', () => {
    const grid = fc
      .tuple(fc.integer({ min: 1, max: 16 }), fc.integer({ min: 1, max: 16 }), fc.integer({ min: 1, max: 9 }))
      .chain(([width, height, n]) =>
        fc.record({
          width: fc.constant(width),
          height: fc.constant(height),
          n: fc.constant(n),
          // few marks, so that discs find room
          marks: fc.array(fc.integer({ min: 0, max: width * height - 1 }), { maxLength: 8 }),
        }),
      );
    fc.assert(
      fc.property(grid, ({ width, height, n, marks }) => {
        const marked = new Uint8Array(width * height);
        for (const at of marks) marked[at] = 1;
        expect(openByDisc(marked, width, height, n)).toEqual(openedByHand(marked, width, height, n));
      }),
      RUNS,
    );
  });

  test('has a whole number of cells across', () => {
    expect(() => openByDisc(new Uint8Array(4), 2, 2, 1.5)).toThrow('got 1.5');
  });
});

describe('of any mask', () => {
  const masks = fc
    .tuple(fc.integer({ min: 4, max: 20 }), fc.integer({ min: 4, max: 20 }), fc.integer({ min: 2, max: 7 }))
    .chain(([widthCells, heightCells, diameter]) =>
      fc.record({
        widthCells: fc.constant(widthCells),
        heightCells: fc.constant(heightCells),
        diameter: fc.constant(diameter),
        labels: fc
          .array(fc.constantFrom(0, 1, 1, 2, 3, 3, 3), {
            minLength: widthCells * heightCells,
            maxLength: widthCells * heightCells,
          })
          .map((list) => Uint8Array.from(list)),
      }),
    );
  const under = (
    mask: { labels: Uint8Array<ArrayBuffer>; widthCells: number; heightCells: number },
    mm: number,
  ) => applyGapRule(mask.labels, { ...mask, millimetresPerCell: 1 }, DEFAULT_CLASSES, smallerThan(mm))!;

  test('only ground changes, to a class that is there, and what is measured stays measured', () => {
    fc.assert(
      fc.property(masks, (mask) => {
        const { labels, diameter } = mask;
        const before = labels.slice();
        const after = under(mask, diameter);
        expect(labels).toEqual(before);
        after.forEach((label, cell) => {
          if (labels[cell] !== 3) expect(label).toBe(labels[cell]);
          else expect([1, 2, 3].filter((one) => one === 3 || labels.includes(one))).toContain(label);
        });
      }),
      RUNS,
    );
  });

  test('a second time nothing changes', () => {
    fc.assert(
      fc.property(masks, (mask) => {
        const once = under(mask, mask.diameter);
        expect(under({ ...mask, labels: once }, mask.diameter)).toEqual(once);
      }),
      RUNS,
    );
  });

  test('a larger rule leaves no ground that a smaller one takes', () => {
    fc.assert(
      fc.property(masks, (mask) => {
        const small = under(mask, 2);
        under(mask, 4).forEach((label, cell) => {
          if (label === 3) expect(small[cell]).toBe(3);
        });
      }),
      RUNS,
    );
  });

  test('turned over, the answer turns over', () => {
    fc.assert(
      fc.property(masks, (mask) => {
        const turned = under({ ...mask, labels: mask.labels.slice().reverse() }, mask.diameter);
        expect(turned.slice().reverse()).toEqual(under(mask, mask.diameter));
      }),
      RUNS,
    );
  });

  test('only the ratio of rule to cell counts', () => {
    fc.assert(
      fc.property(masks, fc.constantFrom(0.25, 0.5, 2, 4), (mask, scale) => {
        const scaled = applyGapRule(
          mask.labels,
          { ...mask, millimetresPerCell: scale },
          DEFAULT_CLASSES,
          smallerThan(mask.diameter * scale),
        );
        expect(scaled).toEqual(under(mask, mask.diameter));
      }),
      RUNS,
    );
  });
});
