import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { type ColourProfile, readColourProfile } from '../../../src/core/photo-file/colourProfile.ts';
import { convertToSrgb, srgbConversion } from '../../../src/core/photo-file/convertToSrgb.ts';
import { inspectPhotoFile } from '../../../src/core/photo-file/inspectPhotoFile.ts';
import { colourfulPicture } from '../../support/testPictures.ts';

async function profileNamed(name: 'p3' | 'srgb'): Promise<ColourProfile> {
  const inspection = inspectPhotoFile(await colourfulPicture().withIccProfile(name).jpeg().toBuffer());
  if (!inspection.ok || !inspection.info.embeddedProfile) throw new Error('no profile in the file');
  const reading = readColourProfile(inspection.info.embeddedProfile.bytes);
  if (reading.state !== 'usable') throw new Error(reading.state);
  return reading.profile;
}

describe('Display P3 to sRGB', () => {
  test('agrees with an independent colour engine (Little CMS in libvips) to one level', async () => {
    const inP3 = await colourfulPicture(200, 200).withIccProfile('p3').png().toBuffer();
    const unconverted = await sharp(inP3, { ignoreIcc: true }).ensureAlpha().raw().toBuffer();
    const engine = await sharp(inP3).toColourspace('srgb').ensureAlpha().raw().toBuffer();
    const ours = new Uint8ClampedArray(unconverted);
    convertToSrgb(ours, srgbConversion(await profileNamed('p3'))!);
    const differences = ours.map((value, i) => Math.abs(value - engine[i]!));
    expect(differences.reduce((most, d) => Math.max(most, d))).toBeLessThanOrEqual(1);
    expect(differences.filter((d) => d > 0).length / differences.length).toBeLessThan(0.03);
    expect(unconverted.some((value, i) => Math.abs(value - engine[i]!) > 10)).toBe(true);
  });

  test('greys stay within a level of grey, and what lies outside sRGB is clipped', async () => {
    const conversion = srgbConversion(await profileNamed('p3'))!;
    const greys = Uint8ClampedArray.from({ length: 256 * 4 }, (_, i) => (i % 4 === 3 ? 255 : i >> 2));
    const before = greys.slice();
    convertToSrgb(greys, conversion);
    expect(Math.max(...greys.map((value, i) => Math.abs(value - before[i]!)))).toBeLessThanOrEqual(1);
    const green = Uint8ClampedArray.from([0, 255, 0, 255]);
    convertToSrgb(green, conversion);
    expect([...green]).toEqual([0, 255, 0, 255]);
  });
});

test('a profile that is sRGB needs no conversion', async () => {
  expect(srgbConversion(await profileNamed('srgb'))).toBeNull();
});

test.each([
  ['nothing', new Uint8Array()],
  ['a head with noise', Uint8Array.from({ length: 200 }, (_, i) => (i * 37) % 256)],
])('%s is no profile', (_, bytes) => {
  expect(readColourProfile(bytes)).toEqual({ state: 'ignored' });
});

/** An RGB profile whose three curves are this tag; @see ICC.1:2022 */
function profileWithCurve(curve: number[]): Uint8Array {
  const bytes = Buffer.alloc(132 + 12 * 6 + 60 + curve.length);
  bytes.write('RGB XYZ ', 16, 'latin1');
  bytes.write('acsp', 36, 'latin1');
  bytes.writeUInt32BE(6, 128);
  const primariesAt = 132 + 12 * 6;
  ['rXYZ', 'gXYZ', 'bXYZ'].forEach((tag, i) => {
    bytes.write(tag, 132 + 12 * i, 'latin1');
    bytes.writeUInt32BE(primariesAt + 20 * i, 136 + 12 * i);
    bytes.writeUInt32BE(20, 140 + 12 * i);
    bytes.write('XYZ ', primariesAt + 20 * i, 'latin1');
    bytes.writeInt32BE(65536, primariesAt + 20 * i + 8 + 4 * i);
  });
  ['rTRC', 'gTRC', 'bTRC'].forEach((tag, i) => {
    bytes.write(tag, 168 + 12 * i, 'latin1');
    bytes.writeUInt32BE(primariesAt + 60, 172 + 12 * i);
    bytes.writeUInt32BE(curve.length, 176 + 12 * i);
  });
  bytes.set(curve, primariesAt + 60);
  return bytes;
}

const tag = (name: string, ...numbers: number[]) => [...Buffer.from(name), 0, 0, 0, 0, ...numbers];
const fixed16 = (value: number) => [...new Uint8Array(new Int32Array([value * 65536]).buffer)].reverse();

test.each<[string, number[], number, number]>([
  // name, tag, stored value, linear light by hand
  ['identity', tag('curv', 0, 0, 0, 0), 51, 0.2],
  ['gamma 2', tag('curv', 0, 0, 0, 1, 2, 0), 51, 0.04],
  [
    'table 0, 0.5, 1 (interpolated)',
    tag('curv', 0, 0, 0, 3, 0, 0, 0x80, 0, 0xff, 0xff),
    51,
    0.4 * (0x8000 / 65535),
  ],
  ['parametric 0: x^2', tag('para', 0, 0, 0, 0, ...fixed16(2)), 51, 0.04],
  ['parametric 1: below -b/a', tag('para', 0, 1, 0, 0, ...[2, 1, -0.5].flatMap(fixed16)), 51, 0],
  ['parametric 2: (x)^2 + 0.25', tag('para', 0, 2, 0, 0, ...[2, 1, 0, 0.25].flatMap(fixed16)), 51, 0.29],
  ['parametric 3: linear part', tag('para', 0, 3, 0, 0, ...[2, 1, 0, 0.5, 0.25].flatMap(fixed16)), 51, 0.1],
  [
    'parametric 4: linear part',
    tag('para', 0, 4, 0, 0, ...[2, 1, 0, 0.5, 0.25, 0, 0.125].flatMap(fixed16)),
    51,
    0.225,
  ],
])('curve: %s', (_, curve, stored, light) => {
  const reading = readColourProfile(profileWithCurve(curve));
  if (reading.state !== 'usable') throw new Error(reading.state);
  expect(reading.profile.linear[1][stored]).toBeCloseTo(light, 6);
});
