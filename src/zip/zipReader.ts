import {
  ERR_EOCDR_NOT_FOUND,
  type FileEntry,
  Reader,
  ZipReader as Zip,
} from '@zip.js/zip.js/lib/zip-core-native.js';
import type { ArchiveEntry } from '../core/exchange/archiveEntries.ts';
import type { ArchiveProblem } from '../core/exchange/archiveProblem.ts';
import { freeChunk } from './freeChunk.ts';

/** Bytes that can be read from any place: a file of the browser, or of Node. */
export interface ByteSource {
  readonly size: number;
  /** Fewer bytes only at the end. */
  read(offset: number, length: number): Promise<Uint8Array>;
}

/** A zip file that is open for reading. */
export interface ZipReader {
  /** Files inside, in the order of the directory; folders are left out. */
  readonly entries: readonly ArchiveEntry[];
  /**
   * One file inside, whole. More bytes than its entry declares are never held.
   *
   * @throws Error if it is not there or its compressed bytes are damaged
   */
  read(path: string): Promise<Uint8Array<ArrayBuffer>>;
}

export type ZipOpening =
  | { readonly ok: true; readonly zip: ZipReader }
  | { readonly ok: false; readonly problem: ArchiveProblem };

/** Opens a zip file by its directory; nothing else is read yet. */
export async function openZip(source: ByteSource): Promise<ZipOpening> {
  const reader = new Zip(new SourceReader(source), { useWebWorkers: false, checkOverlappingEntry: true });
  let found: FileEntry[];
  try {
    found = (await reader.getEntries()).filter((entry): entry is FileEntry => !entry.directory);
  } catch (error) {
    return { ok: false, problem: await whyUnreadable(source, error) };
  }
  const byPath = new Map(found.map((entry) => [entry.filename, entry]));
  return {
    ok: true,
    zip: {
      entries: found.map(({ filename, uncompressedSize, compressedSize, encrypted }) => ({
        path: filename,
        bytes: uncompressedSize,
        compressedBytes: compressedSize,
        encrypted,
      })),
      async read(path) {
        const entry = byPath.get(path);
        if (!entry) throw new Error(`${path} is not in the zip file`);
        return readEntry(entry);
      },
    },
  };
}

async function readEntry(entry: FileEntry): Promise<Uint8Array<ArrayBuffer>> {
  const { filename, uncompressedSize } = entry;
  const bytes = new Uint8Array(uncompressedSize);
  let length = 0;
  const sink = new WritableStream<Uint8Array>({
    write(chunk) {
      if (length + chunk.length > uncompressedSize) {
        throw new RangeError(`${filename} holds more than the ${uncompressedSize} bytes it declares`);
      }
      bytes.set(chunk, length);
      length += chunk.length;
      freeChunk(chunk);
    },
  });
  await entry.getData(sink, { checkCrc32: true });
  if (length !== uncompressedSize) {
    throw new RangeError(`${filename} holds ${length} bytes and declares ${uncompressedSize}`);
  }
  return bytes;
}

/** First bytes of a zip file. */
const LOCAL_HEADER = [0x50, 0x4b, 0x03, 0x04];

async function whyUnreadable(source: ByteSource, error: unknown): Promise<ArchiveProblem> {
  const detail = error instanceof Error ? error.message : String(error);
  const head = await source.read(0, 4).catch(() => new Uint8Array());
  const beginsAsZip = LOCAL_HEADER.every((byte, index) => head[index] === byte);
  if (!beginsAsZip) return { code: 'not-a-zip' };
  return detail === ERR_EOCDR_NOT_FOUND ? { code: 'cut-off' } : { code: 'zip-damaged', path: null, detail };
}

class SourceReader extends Reader<ByteSource> {
  readonly #source: ByteSource;

  constructor(source: ByteSource) {
    super(source);
    this.#source = source;
    this.size = source.size;
  }

  override readUint8Array(offset: number, length: number): Promise<Uint8Array<ArrayBuffer>> {
    return this.#source.read(offset, Math.min(length, this.size - offset)) as Promise<
      Uint8Array<ArrayBuffer>
    >;
  }
}
