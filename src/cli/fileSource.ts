import type { FileHandle } from 'node:fs/promises';
import type { ByteSource } from '../zip/zipReader.ts';

/** A file of the disk, read piece by piece. */
export async function fileSource(file: FileHandle): Promise<ByteSource> {
  const { size } = await file.stat();
  return {
    size,
    async read(offset, length) {
      const bytes = new Uint8Array(length);
      let done = 0;
      while (done < length) {
        const { bytesRead } = await file.read(bytes, done, length - done, offset + done);
        if (bytesRead === 0) break;
        done += bytesRead;
      }
      return bytes.subarray(0, done);
    },
  };
}
