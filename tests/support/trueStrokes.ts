import { readFile } from 'node:fs/promises';
import sharp from 'sharp';
import { seededRandom } from './seededRandom.ts';

/** A sample photo's entry in sample-images/photos.json, as far as teaching needs it. */
export interface TruePhoto {
  readonly name: string;
  readonly frame: readonly (readonly [number, number])[];
  readonly frameSizeMm: readonly [number, number];
  /** Percent of ground, by class. */
  readonly coverPercent: Readonly<Record<string, number>>;
  /** Single labelled pixels drawn from the true mask, as strokes of an annotations file. */
  readonly strokes: readonly {
    readonly class: string;
    readonly radiusPx: 0;
    readonly points: readonly (readonly [number, number])[];
  }[];
}

const CLASS_IDS = ['ryegrass', 'weedy-grass', 'bare-ground'];

/** @param each labelled pixels a class */
export async function truePhoto(name: string, each: number, seed = 1): Promise<TruePhoto> {
  const { photos } = JSON.parse(await readFile('sample-images/photos.json', 'utf8'));
  const entry = photos.find(({ photo }: { photo: string }) => photo.endsWith(name));
  const { data, info } = await sharp(`sample-images/${entry.truth}`)
    .raw()
    .toBuffer({ resolveWithObject: true });
  const random = seededRandom(seed);
  const strokes = CLASS_IDS.flatMap((classId, c) => {
    const pixels: number[] = [];
    for (let i = 0; i < info.width * info.height; i += 1)
      if (data[i * info.channels] === c + 1) pixels.push(i);
    return Array.from({ length: each }, () => {
      const pixel = pixels[Math.floor(random() * pixels.length)]!;
      const point = [(pixel % info.width) + 0.5, Math.floor(pixel / info.width) + 0.5] as const;
      return { class: classId, radiusPx: 0 as const, points: [point] };
    });
  });
  return {
    name,
    frame: entry.frame,
    frameSizeMm: entry.frameSizeMm,
    coverPercent: entry.coverPercentOfGround,
    strokes,
  };
}
