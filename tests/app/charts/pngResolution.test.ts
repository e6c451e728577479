import sharp from 'sharp';
import { expect, test } from 'vitest';
import { withResolution } from '../../../src/app/charts/pngResolution.ts';

test('another program reads the resolution and the same pixels', async () => {
  const raw = { width: 3, height: 2, channels: 3 as const };
  const bytes = Buffer.from(Array.from({ length: 18 }, (_, i) => i * 14));
  // libvips writes a resolution by itself; a canvas does not, so it is taken out first
  const png = withoutChunk(await sharp(bytes, { raw }).png().toBuffer(), 'pHYs');
  const marked = withResolution(png, 300);
  expect((await sharp(marked).metadata()).density).toBe(300);
  expect(await sharp(marked).raw().toBuffer()).toEqual(bytes);
});

function withoutChunk(png: Uint8Array, type: string): Uint8Array {
  const view = new DataView(png.buffer, png.byteOffset, png.byteLength);
  const kept = [...png.subarray(0, 8)];
  for (let at = 8; at < png.length; ) {
    const end = at + 12 + view.getUint32(at);
    if (String.fromCharCode(...png.subarray(at + 4, at + 8)) !== type) kept.push(...png.subarray(at, end));
    at = end;
  }
  return Uint8Array.from(kept);
}
