import type { ArchiveProblem } from './archiveProblem.ts';

/** A file inside a zip file, as its directory declares it. */
export interface ArchiveEntry {
  readonly path: string;
  readonly bytes: number;
  readonly compressedBytes: number;
  readonly encrypted: boolean;
}

export const MANIFEST_PATH = 'manifest.json';

const MOST_FILES = 200_000;
/** No photo a phone takes is larger. */
const MOST_BYTES = 256 * 2 ** 20;
/** Tables of a large trial: JSON packs to a tenth or a twentieth. */
const MOST_TABLE_BYTES = 1024 * 2 ** 20;
const MOST_RATIO = 200;
/** Below this a dense file does no harm. */
const SMALL_BYTES = 2 ** 20;
const LONGEST_PATH = 400;

/**
 * Whether the files of an archive may be read at all: paths that stay inside it, sizes that fit, nothing encrypted.
 *
 * @returns the first thing wrong; null if there is none
 */
export function entriesProblem(entries: readonly ArchiveEntry[]): ArchiveProblem | null {
  if (entries.length > MOST_FILES) {
    return { code: 'too-many-files', met: entries.length, most: MOST_FILES };
  }
  const seen = new Set<string>();
  for (const { path, bytes, compressedBytes, encrypted } of entries) {
    if (!isSafePath(path)) return { code: 'unsafe-path', path };
    // disks that ignore letter case hold one of the two only
    const asOnDisk = path.toLowerCase();
    if (seen.has(asOnDisk)) return { code: 'path-twice', path };
    seen.add(asOnDisk);
    if (encrypted) return { code: 'encrypted', path };
    const mostBytes = path.endsWith('.json') ? MOST_TABLE_BYTES : MOST_BYTES;
    if (!(bytes >= 0 && bytes <= mostBytes)) return { code: 'too-large', path, bytes, mostBytes };
    const ratio = bytes / Math.max(1, compressedBytes);
    if (bytes > SMALL_BYTES && ratio > MOST_RATIO) {
      return { code: 'too-dense', path, ratio: Math.round(ratio), most: MOST_RATIO };
    }
  }
  return null;
}

/** A relative path of plain names with `/`: nothing that leads out of a folder it is unpacked into. */
export function isSafePath(path: string): boolean {
  if (path === '' || path.length > LONGEST_PATH || /[\\:\p{Cc}]/u.test(path)) return false;
  return path.split('/').every((name) => name !== '' && name !== '.' && name !== '..');
}
