import { readdir, realpath, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { cli } from '../core/text/cli.ts';
import { UsageError } from './usageError.ts';

/** A photo of a run. Its name is that of the file without folders; no two of a run are equal. */
export interface ListedPhoto {
  readonly name: string;
  readonly path: string;
}

export interface PhotoList {
  readonly photos: readonly ListedPhoto[];
  /** Folders with the number of files that are no pictures by their name. */
  readonly leftAside: ReadonlyMap<string, number>;
}

/** Files of a folder that are meant as pictures, those of kinds that cannot be read included: they are named then. */
const PICTURE_NAME = /\.(jpe?g|jpe|jfif|png|webp|hei[cf]|avif|gif|tiff?|bmp|dng|jxl|jp2)$/i;

const inOrder = new Intl.Collator('en', { numeric: true });

/**
 * The photos that arguments name: files as they are, folders with the pictures right inside them in the order of
 * their names. A file named twice counts once.
 *
 * @throws UsageError for a path that does not exist, for no photos at all, for two photos of the same name
 */
export async function listPhotos(paths: readonly string[]): Promise<PhotoList> {
  const photos: ListedPhoto[] = [];
  const leftAside = new Map<string, number>();
  const seen = new Set<string>();
  const add = async (path: string): Promise<void> => {
    const real = await realpath(path).catch(() => path); // a dangling link fails when it is read
    if (seen.has(real)) return;
    seen.add(real);
    photos.push({ name: basename(path), path });
  };
  for (const path of paths) {
    const found = await stat(path).catch(() => null);
    if (!found?.isDirectory() && !found?.isFile()) throw new UsageError(cli.measure.notFound(path));
    if (found.isFile()) {
      await add(path);
      continue;
    }
    const entries = await readdir(path, { withFileTypes: true });
    const files = entries.filter(
      (entry) => (entry.isFile() || entry.isSymbolicLink()) && !entry.name.startsWith('.'),
    );
    const pictures = files.filter(({ name }) => PICTURE_NAME.test(name));
    if (files.length > pictures.length) leftAside.set(path, files.length - pictures.length);
    for (const name of pictures.map((file) => file.name).sort(inOrder.compare)) await add(join(path, name));
  }
  if (photos.length === 0) throw new UsageError(cli.measure.noPhotos(paths));
  refuseEqualNames(photos);
  return { photos, leftAside };
}

/** Names count as equal where their masks would be the same file, on disks that ignore case as well. */
function refuseEqualNames(photos: readonly ListedPhoto[]): void {
  const byMask = new Map<string, ListedPhoto>();
  for (const photo of photos) {
    const key = maskName(photo.name).normalize('NFC').toLowerCase();
    const other = byMask.get(key);
    if (other) throw new UsageError(cli.measure.equalNames(other.path, photo.path));
    byMask.set(key, photo);
  }
}

/** The name of a photo's mask. */
export const maskName = (photo: string): string => `${photo.replace(/\.[^.]*$/, '')}.png`;
