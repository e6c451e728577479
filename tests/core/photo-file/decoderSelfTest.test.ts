import { expect, test } from 'vitest';
import { decodePicture } from '../../../src/cli/decodePhoto.ts';
import { decoderSelfTest } from '../../../src/core/photo-file/decoderSelfTest.ts';

test('a decoder that is off by three levels in one value is told', async () => {
  const verdict = await decoderSelfTest(async (info) => {
    const result = await decodePicture(info);
    if (result.ok) result.raster.data[100]! += result.raster.data[100]! > 128 ? -3 : 3;
    return result;
  });
  expect(verdict).toEqual({ state: 'differs', largestDifference: 3 });
});

test('a decoder that does not turn photos upright, or gives nothing, is told', async () => {
  const lying = await decoderSelfTest(async (info) => {
    const result = await decodePicture(info);
    if (!result.ok) return result;
    const { widthPx, heightPx, data } = result.raster;
    return { ok: true, raster: { widthPx: heightPx, heightPx: widthPx, data } };
  });
  expect(lying).toEqual({ state: 'differs', largestDifference: 255 });
  const none = await decoderSelfTest(async () => ({ ok: false, problem: { code: 'truncated' } }));
  expect(none).toEqual({ state: 'differs', largestDifference: 255 });
});
