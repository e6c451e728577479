import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const folder = fileURLToPath(new URL('../../sample-images/photos/', import.meta.url));

/** Paths of the 64 sample photos in the order of their names. */
export const samplePhotos = (): string[] =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.jpg'))
    .sort()
    .map((name) => folder + name);
