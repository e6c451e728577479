import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { collectRuns } from '../../../src/core/geometry/pixelRuns.ts';
import { canonicalJson } from '../../../src/core/mask/canonicalJson.ts';
import { correctedMask } from '../../../src/core/mask/correctedMask.ts';
import {
  decodeCorrections,
  decodePatch,
  encodeCorrections,
  encodePatch,
} from '../../../src/core/mask/correctionBytes.ts';
import { correctionAt, emptyCorrections } from '../../../src/core/mask/correctionLayer.ts';
import { beginEdit, finishEdit, paintRuns } from '../../../src/core/mask/maskEdit.ts';
import { signOffBytes } from '../../../src/core/mask/signOffBytes.ts';
import { crc32 } from '../../../src/core/photo-file/crc32.ts';
import expected from './fixtures/correctionBytes.json' with { type: 'json' };
import { correctionsOf, maskFrom } from './maskPictures.ts';

const hex = (bytes: Uint8Array) => Buffer.from(bytes).toString('hex');
const fromHex = (text: string) => Uint8Array.from(Buffer.from(text, 'hex'));
const at = (y: number, from: number, to: number) => collectRuns((visit) => visit(y, from, to));

function paint(
  mask: ReturnType<typeof maskFrom>,
  ...strokes: [y: number, from: number, to: number, label: number][]
) {
  const edit = beginEdit(mask);
  for (const [y, from, to, label] of strokes) paintRuns(edit, at(y, from, to), { label });
  return finishEdit(edit);
}

function four() {
  const mask = maskFrom('RRRR');
  paint(mask, [0, 1, 3, 3]);
  return mask.corrections;
}

function large() {
  const automatic = { widthPx: 200, heightPx: 70, labels: new Uint8Array(200 * 70).fill(1) };
  const mask = correctedMask(automatic, emptyCorrections(200, 70), 3);
  // in another order than that of the tiles, and by a detour
  paint(mask, [64, 0, 2, 3], [69, 150, 200, 2]);
  paint(mask, [64, 0, 1, 1], [69, 150, 200, 0], [0, 65, 66, 2]);
  return mask.corrections;
}

describe('the bytes of corrections', () => {
  test('follow the documented layout (fixtures/correctionBytes.py)', () => {
    expect(hex(encodeCorrections(emptyCorrections(70, 3)))).toBe(expected.empty);
    expect(hex(encodeCorrections(four()))).toBe(expected.four);
    expect(hex(encodeCorrections(large()))).toBe(expected.large);
    const mask = maskFrom('RRRR');
    paint(mask, [0, 0, 2, 1], [0, 3, 4, 2]);
    expect(hex(encodePatch(paint(mask, [0, 0, 2, 2], [0, 3, 4, 0])!))).toBe(expected.patch);
  });

  test('give the corrections back', () => {
    const read = decodeCorrections(fromHex(expected.large), { widthPx: 200, heightPx: 70 });
    if (!read.ok) throw new Error(read.problem.code);
    const layer = read.value;
    expect([
      layer.tiles.size,
      correctionAt(layer, 65, 0),
      correctionAt(layer, 0, 64),
      correctionAt(layer, 1, 64),
    ]).toEqual([2, 2, 1, 3]);
    expect(hex(encodeCorrections(layer))).toBe(expected.large);
    const empty = decodeCorrections(fromHex(expected.empty), { widthPx: 70, heightPx: 3 });
    expect(empty).toEqual({ ok: true, value: emptyCorrections(70, 3) });
  });

  test('read from the middle of a larger buffer', () => {
    const pool = Buffer.concat([Buffer.from('xx'), Buffer.from(expected.four, 'hex'), Buffer.from('yy')]);
    const read = decodeCorrections(pool.subarray(2, -2), { widthPx: 4, heightPx: 1 });
    pool.fill(0);
    expect(read.ok && correctionsOf(read.value)).toBe('.BB.');
  });
});

describe('bytes that are no corrections', () => {
  const photo = { widthPx: 4, heightPx: 1 };
  const problem = (bytes: Uint8Array, size = photo) => {
    const read = decodeCorrections(bytes, size);
    return read.ok ? null : read.problem;
  };

  test('something else altogether', () => {
    expect(problem(new Uint8Array(0))).toEqual({ code: 'corrections-other-data' });
    expect(problem(new TextEncoder().encode('{"type":"x"}'))).toEqual({ code: 'corrections-other-data' });
    // a patch is no layer, and the other way round
    expect(problem(fromHex(expected.patch))).toEqual({ code: 'corrections-other-data' });
    expect(decodePatch(fromHex(expected.four), photo)).toMatchObject({
      problem: { code: 'corrections-other-data' },
    });
  });

  test('a newer version is not guessed at', () => {
    const bytes = fromHex(expected.four);
    bytes[4] = 2;
    expect(problem(bytes)).toEqual({ code: 'corrections-newer-version', version: 2, known: 1 });
  });

  test('corrections of a photo of another size', () => {
    expect(problem(fromHex(expected.four), { widthPx: 1, heightPx: 4 })).toEqual({
      code: 'corrections-other-size',
      widthPx: 4,
      heightPx: 1,
      photoWidthPx: 1,
      photoHeightPx: 4,
    });
  });

  test('every truncation and every changed byte is noticed', () => {
    const bytes = fromHex(expected.large);
    const size = { widthPx: 200, heightPx: 70 };
    for (let length = 0; length < bytes.length; length += 1) {
      expect(problem(bytes.subarray(0, length), size)).not.toBeNull();
    }
    for (let i = 0; i < bytes.length; i += 1) {
      const damaged = bytes.slice();
      damaged[i]! ^= 0x10;
      expect(problem(damaged, size)).not.toBeNull();
    }
  });

  test('made up with a right checksum: never an exception, and never a correction out of place', () => {
    const crafted = (runs: readonly number[], magic = 'SwCl') => {
      const body = Uint8Array.from([...Buffer.from(magic), 1, 4, 1, ...runs]);
      const check = crc32(body);
      return Uint8Array.from([...body, check & 255, (check >>> 8) & 255, (check >>> 16) & 255, check >>> 24]);
    };
    const detail = (runs: readonly number[]) => {
      const found = problem(crafted(runs));
      return found?.code === 'corrections-damaged' ? found.detail : found;
    };
    expect(detail([1, 1, 0, 3, 0])).toContain('tile 1: there are 1');
    expect(detail([0, 0])).toContain('tile 0 with 0 changes');
    expect(detail([0, 1, 3, 3, 0])).toContain('from 3 to itself');
    expect(detail([0, 1, 0, 3, 255, 255, 255, 255, 15])).toContain('too long');
    expect(detail([0, 1, 0, 3, 255, 255, 255, 255, 255, 255])).toContain('too long');
    expect(detail([0, 1, 0, 3, 0])).toContain('the data end');
    // the whole tile is changed, but the photo has four pixels
    expect(detail([0, 1, 0, 3, 255, 63])).toContain('reaches out of the photo');
    expect(detail([0, 1, 2, 3, 1, 252, 63])).toContain('does not start from the automatic label');
    expect(decodePatch(crafted([], 'SwCp'), photo)).toMatchObject({
      problem: { code: 'corrections-damaged', detail: 'the patch changes nothing' },
    });
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 40 }), (bytes) => {
        const read = decodeCorrections(crafted([...bytes]), photo);
        if (read.ok) expect(encodeCorrections(read.value).length).toBeGreaterThan(0);
      }),
      { seed: 17, numRuns: 500 },
    );
  });
});

test('the checksum is that of PNG and gzip', () => {
  // the check value of the CRC-32 catalogue: "123456789" gives cbf43926
  expect(crc32(new TextEncoder().encode('123456789')).toString(16)).toBe('cbf43926');
});

describe('canonical JSON', () => {
  test('is what python3 json.dumps(sort_keys, ensure_ascii, no spaces) writes', () => {
    const value = {
      smile: '\u{1f600}',
      b: [1, 2.5, false],
      del: '\x7f',
      a: { z: null, y: true, é: 'ü\n"\\' },
      B: {},
      left: undefined,
    };
    expect(canonicalJson(value)).toBe(expected.canonicalJson);
    expect(JSON.parse(canonicalJson(value))).toEqual(JSON.parse(JSON.stringify(value)));
  });

  test('refuses what JSON does not know, instead of writing something else', () => {
    for (const value of [
      Number.NaN,
      Number.POSITIVE_INFINITY,
      new Map(),
      new Date(0),
      () => 1,
      undefined,
      [undefined],
    ]) {
      expect(() => canonicalJson(value)).toThrow(TypeError);
    }
  });
});

describe('the bytes that seal a rating date', () => {
  const first = () => ({
    photoSha256: 'ab'.repeat(32),
    modelId: 'start-1',
    settings: { frame: null, classes: ['ryegrass', 'weedy-grass'] } as unknown,
    corrections: four(),
  });
  const second = () => ({
    photoSha256: 'cd'.repeat(32),
    modelId: 'start-1',
    settings: { classes: ['ryegrass'], frame: [[1, 2.5]] } as unknown,
    corrections: large(),
  });
  const seal = (photos: Parameters<typeof signOffBytes>[0]) =>
    createHash('sha256').update(signOffBytes(photos)).digest('hex');

  test('follow the documented layout, in whatever order the photos come', () => {
    expect(seal([first(), second()])).toBe(expected.signOffSha256);
    expect(seal([second(), first()])).toBe(expected.signOffSha256);
  });

  test('change with the model, a setting, a photo and a single pixel', () => {
    const mask = maskFrom('RRRR');
    paint(mask, [0, 1, 2, 3]);
    const variants = [
      [first(), second()],
      [first()],
      [{ ...first(), modelId: 'start-2' }, second()],
      [{ ...first(), settings: { frame: null, classes: ['weedy-grass', 'ryegrass'] } }, second()],
      [{ ...first(), corrections: mask.corrections }, second()],
      [{ ...first(), corrections: emptyCorrections(4, 1) }, second()],
    ];
    expect(new Set(variants.map(seal)).size).toBe(variants.length);
  });

  test('refuse a photo twice and a hash that is none', () => {
    expect(() => signOffBytes([first(), first()])).toThrow('appears twice');
    expect(() => signOffBytes([{ ...first(), photoSha256: 'AB' }])).toThrow('got "AB"');
  });
});
