import { readFile } from 'node:fs/promises';
import sharp from 'sharp';

/** A place on a sample photo round which only one class stands. */
export interface TruePatch {
  readonly classId: string;
  readonly x: number;
  readonly y: number;
}

const CLASS_IDS = ['ryegrass', 'weedy-grass', 'bare-ground'];

/**
 * Places where a person would paint: squares of one class in the true mask, well apart from each other; those where
 * the class fills most first.
 *
 * @param name file name of a sample photo
 */
export async function truePatches(name: string, each: number, halfSide = 3): Promise<TruePatch[]> {
  const { photos } = JSON.parse(await readFile('sample-images/photos.json', 'utf8'));
  const entry = photos.find(({ photo }: { photo: string }) => photo.endsWith(name));
  const { data, info } = await sharp(`sample-images/${entry.truth}`)
    .raw()
    .toBuffer({ resolveWithObject: true });
  const labelAt = (x: number, y: number) => data[(y * info.width + x) * info.channels]!;
  return CLASS_IDS.flatMap((classId, c) => {
    const found: { classId: string; x: number; y: number; same: number }[] = [];
    for (let y = 20; y < info.height - 20; y += 5) {
      for (let x = 20; x < info.width - 20; x += 5) {
        let same = 0;
        for (let dy = -halfSide; dy <= halfSide; dy += 1) {
          for (let dx = -halfSide; dx <= halfSide; dx += 1) if (labelAt(x + dx, y + dy) === c + 1) same += 1;
        }
        if (labelAt(x, y) === c + 1) found.push({ classId, x, y, same });
      }
    }
    found.sort((a, b) => b.same - a.same);
    const chosen: TruePatch[] = [];
    for (const patch of found) {
      if (chosen.length === each) break;
      if (chosen.every(({ x, y }) => Math.hypot(x - patch.x, y - patch.y) > 60)) {
        chosen.push({ classId, x: patch.x, y: patch.y });
      }
    }
    return chosen;
  });
}
