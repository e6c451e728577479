import type { LabelMask } from '../core/raster/labelMask.ts';
import { writeWhole } from './wholeFile.ts';

const GREYSCALE = 0;

/** Writes a mask as 8-bit PNG of one channel; its grey values are the labels. */
export async function writeMaskFile(path: string, { widthPx, heightPx, labels }: LabelMask): Promise<void> {
  const { Jimp } = await import('jimp'); // takes a while to load, and many runs write no masks
  const image = new Jimp({ width: widthPx, height: heightPx, color: 0x000000ff });
  const { data } = image.bitmap;
  for (let i = 0; i < labels.length; i += 1) {
    const label = labels[i]!;
    data[4 * i] = label;
    data[4 * i + 1] = label;
    data[4 * i + 2] = label;
  }
  await writeWhole(path, await image.getBuffer('image/png', { colorType: GREYSCALE }));
}
