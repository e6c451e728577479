import { freeChunk } from '../../../zip/freeChunk.ts';
import { saveBlob } from '../../components/saveBlob.ts';

/** Where a file is being written to. */
export interface SaveTarget {
  readonly writable: WritableStream<Uint8Array>;
  /** After the stream was closed: hands the file over, where the person did not choose its place before. */
  finish(): Promise<void>;
  /** Leaves nothing behind. */
  abandon(): Promise<void>;
}

interface PickerWindow {
  showSaveFilePicker?(options: {
    suggestedName: string;
    types: readonly { description: string; accept: Readonly<Record<string, readonly string[]>> }[];
  }): Promise<FileSystemFileHandle>;
}

/**
 * Opens a place for a large file: one that the person chooses where the browser asks; else the browser's own file system,
 * from where it is offered as a download; else memory. To be called at once when a button is pressed, for browsers ask only
 * then.
 *
 * @returns null where the person changed their mind
 */
export async function openSaveTarget(name: string, description: string): Promise<SaveTarget | null> {
  const { showSaveFilePicker } = window as PickerWindow;
  if (showSaveFilePicker) {
    try {
      const types = [{ description, accept: { 'application/zip': ['.zip'] } }];
      const handle = await showSaveFilePicker.call(window, { suggestedName: name, types });
      const writer = (await handle.createWritable()).getWriter();
      return {
        writable: into(writer),
        finish: async () => {},
        // what stood in the file before stays, since nothing was closed
        abandon: () => writer.abort().catch(() => undefined),
      };
    } catch (error) {
      if ((error as Error).name === 'AbortError') return null;
      // some embedded browsers show the function and forbid it: the download is open to all
    }
  }
  return (await inOwnFileSystem(name)) ?? inMemory(name);
}

const FOLDER = 'saving';

/** Files of earlier downloads are cleared away, since a download may still read its file when the next thing is done. */
async function inOwnFileSystem(name: string): Promise<SaveTarget | null> {
  try {
    const root = await navigator.storage.getDirectory();
    await root.removeEntry(FOLDER, { recursive: true }).catch(() => undefined);
    const folder = await root.getDirectoryHandle(FOLDER, { create: true });
    const handle = await folder.getFileHandle(name, { create: true });
    const writer = (await handle.createWritable()).getWriter();
    return {
      writable: into(writer),
      finish: async () => saveBlob(await handle.getFile(), name),
      abandon: async () => {
        await writer.abort().catch(() => undefined);
        await folder.removeEntry(name).catch(() => undefined);
      },
    };
  } catch {
    return null; // no such file system here
  }
}

/** A stream of its own, so that a file can be abandoned whoever holds the stream. */
const into = (writer: WritableStreamDefaultWriter): WritableStream<Uint8Array> =>
  new WritableStream({
    async write(chunk) {
      await writer.write(chunk);
      freeChunk(chunk);
    },
    close: () => writer.close(),
  });

const PIECE_BYTES = 8 * 2 ** 20;

/** Pieces become blobs, which browsers keep on disk where they can. */
function inMemory(name: string): SaveTarget {
  let whole = new Blob([]);
  let pieces: Uint8Array<ArrayBuffer>[] = [];
  let waiting = 0;
  const flush = () => {
    whole = new Blob([whole, ...pieces], { type: 'application/zip' });
    pieces = [];
    waiting = 0;
  };
  return {
    writable: new WritableStream({
      write(chunk) {
        pieces.push(new Uint8Array(chunk));
        waiting += chunk.length;
        if (waiting >= PIECE_BYTES) flush();
      },
      close: flush,
    }),
    finish: async () => saveBlob(whole, name),
    abandon: async () => {
      whole = new Blob([]);
      pieces = [];
    },
  };
}
