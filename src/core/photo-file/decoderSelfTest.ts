import type { DecodeResult } from './decodeResult.ts';
import { inspectJpeg } from './inspectJpeg.ts';
import type { PhotoFileInfo } from './photoFileInfo.ts';
import {
  SELF_TEST_FILE,
  SELF_TEST_HEIGHT_PX,
  SELF_TEST_PIXELS,
  SELF_TEST_WIDTH_PX,
} from './selfTestPicture.ts';

/** Whether the decoder at hand gives the pixels that figures of other machines rest on. */
export type DecoderVerdict =
  | { readonly state: 'same' }
  /** Largest difference of any colour value, 1..255; 255 as well where nothing of the right size came out. */
  | { readonly state: 'differs'; readonly largestDifference: number };

/**
 * Decodes a small known photo: JPEG with halved colour resolution, a wide-gamut profile and a quarter turn.
 *
 * A decoder that differs still measures; the verdict is kept with every figure it makes.
 */
export async function decoderSelfTest(
  decodePicture: (info: PhotoFileInfo) => Promise<DecodeResult>,
): Promise<DecoderVerdict> {
  const inspection = inspectJpeg(SELF_TEST_FILE);
  if (!inspection.ok) throw new Error(`the picture of the self-test is damaged: ${inspection.problem.code}`);
  const result = await decodePicture(inspection.info);
  if (
    !result.ok ||
    result.raster.widthPx !== SELF_TEST_WIDTH_PX ||
    result.raster.heightPx !== SELF_TEST_HEIGHT_PX
  ) {
    return { state: 'differs', largestDifference: 255 };
  }
  let largestDifference = 0;
  for (let pixel = 0; pixel < SELF_TEST_WIDTH_PX * SELF_TEST_HEIGHT_PX; pixel += 1) {
    for (let channel = 0; channel < 3; channel += 1) {
      const difference = result.raster.data[4 * pixel + channel]! - SELF_TEST_PIXELS[3 * pixel + channel]!;
      largestDifference = Math.max(largestDifference, Math.abs(difference));
    }
  }
  return largestDifference === 0 ? { state: 'same' } : { state: 'differs', largestDifference };
}
