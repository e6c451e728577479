import type { ByteSource } from '../../../zip/zipReader.ts';

/** A file of the browser, read piece by piece. */
export const blobSource = (blob: Blob): ByteSource => ({
  size: blob.size,
  async read(offset, length) {
    return new Uint8Array(await blob.slice(offset, offset + length).arrayBuffer());
  },
});
