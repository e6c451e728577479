import { open, rename, rm } from 'node:fs/promises';

/**
 * Writes a file so that it is there as a whole or not at all: into a file beside it, which then takes its name.
 *
 * @throws Error of the file system; what stood there before is untouched then
 */
export async function writeWhole(path: string, content: string | Uint8Array): Promise<void> {
  const partial = `${path}.part-${process.pid}`;
  try {
    const file = await open(partial, 'w');
    try {
      await file.writeFile(content);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(partial, path);
  } catch (error) {
    await rm(partial, { force: true });
    throw error;
  }
}
