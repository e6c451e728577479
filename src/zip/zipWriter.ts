import { Uint8ArrayReader, ZipWriter as Writer } from '@zip.js/zip.js/lib/zip-core-native.js';

/** A zip file that is being written, one file inside after the other. */
export interface ZipWriter {
  /** @param compress false for what is compressed already, as photos are */
  add(path: string, bytes: Uint8Array, compress: boolean): Promise<void>;
  /** Writes the directory; only then is it a zip file. */
  close(): Promise<void>;
}

/**
 * Writes a zip file as a stream: no more than the file being added is in memory.
 *
 * @param modifiedAt noted with every file inside
 */
export function zipWriter(out: WritableStream<Uint8Array>, modifiedAt: Date): ZipWriter {
  const writer = new Writer(out, { useWebWorkers: false, lastModDate: modifiedAt, extendedTimestamp: false });
  return {
    async add(path, bytes, compress) {
      await writer.add(path, new Uint8ArrayReader(bytes), compress ? {} : { level: 0 });
    },
    async close() {
      await writer.close();
    },
  };
}
