import { z } from 'zod';
import { isSafePath, MANIFEST_PATH } from './archiveEntries.ts';
import type { ArchiveProblem } from './archiveProblem.ts';
import { finiteJson } from './finiteJson.ts';

export const ARCHIVE_TYPE = 'swardbook-archive';
export const ARCHIVE_VERSION = 1;
/** Newest version of the database whose records this program understands; a test holds it to the storage's own. */
export const NEWEST_DATABASE = 4;

/** A file inside an archive. */
export interface ArchiveFile {
  readonly path: string;
  readonly bytes: number;
  /** Of the file as it is in the archive, hexadecimal. */
  readonly sha256: string;
  /** Of the photo as it was taken, where its position was taken out of the copy in the archive. */
  readonly originalSha256?: string | undefined;
}

/** What an archive is and holds: `manifest.json` in it. */
export interface ArchiveManifest {
  readonly softwareVersion: string;
  /** Version of the database its records are of. */
  readonly databaseVersion: number;
  /** ISO 8601 instant, UTC. */
  readonly createdAt: string;
  /** Null for photos without a trial. */
  readonly trial: { readonly id: string; readonly code: string; readonly name: string } | null;
  /** The rating date whose photos it holds; left out: all photos. Null for photos without a date. */
  readonly part?: { readonly ratingDate: string | null } | undefined;
  /** Rating dates of all photos there were, whether this part holds them or not. */
  readonly ratingDates: readonly (string | null)[];
  /** By path. */
  readonly files: readonly ArchiveFile[];
}

const sha256 = z.string().regex(/^[0-9a-f]{64}$/);
const ratingDate = z.iso.date().nullable();

const schema = z.strictObject({
  type: z.literal(ARCHIVE_TYPE),
  version: z.literal(ARCHIVE_VERSION),
  softwareVersion: z.string().min(1).max(100),
  databaseVersion: z.int().min(1),
  createdAt: z.iso.datetime(),
  trial: z
    .strictObject({ id: z.string().min(1).max(200), code: z.string().max(100), name: z.string().max(1000) })
    .nullable(),
  part: z.strictObject({ ratingDate }).optional(),
  ratingDates: z.array(ratingDate).max(10_000),
  files: z
    .array(
      z.strictObject({
        path: z.string().refine((path) => isSafePath(path) && path !== MANIFEST_PATH),
        bytes: z.int().min(0),
        sha256,
        originalSha256: sha256.optional(),
      }),
    )
    .refine((files) => new Set(files.map(({ path }) => path.toLowerCase())).size === files.length),
});

/** The manifest as text; equal manifests give equal text. */
export function writeArchiveManifest(manifest: ArchiveManifest): string {
  const { softwareVersion, databaseVersion, createdAt, trial, part, ratingDates, files } = manifest;
  const sorted = [...files].sort((a, b) => (a.path < b.path ? -1 : 1));
  return finiteJson({
    type: ARCHIVE_TYPE,
    version: ARCHIVE_VERSION,
    softwareVersion,
    databaseVersion,
    createdAt,
    trial,
    ...(part && { part }),
    ratingDates,
    files: sorted,
  });
}

export type ManifestReading =
  | { readonly ok: true; readonly manifest: ArchiveManifest }
  | { readonly ok: false; readonly problem: ArchiveProblem };

/** Reads a manifest; one of a newer version, or with records of a newer database, is refused. */
export function readArchiveManifest(text: string): ManifestReading {
  const refused = (problem: ArchiveProblem): ManifestReading => ({ ok: false, problem });
  let file: unknown;
  try {
    file = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return refused({ code: 'bad-manifest', field: '', met: (error as Error).message });
  }
  const head = typeof file === 'object' && file !== null ? (file as Record<string, unknown>) : {};
  if (head.type !== ARCHIVE_TYPE) return refused({ code: 'foreign' });
  const newer = (of: 'archive' | 'database', met: unknown, newest: number) =>
    typeof met === 'number' && met > newest ? { code: 'newer-version' as const, of, met, newest } : null;
  const tooNew =
    newer('archive', head.version, ARCHIVE_VERSION) ??
    newer('database', head.databaseVersion, NEWEST_DATABASE);
  if (tooNew) return refused(tooNew);
  const parsed = schema.safeParse(file);
  if (!parsed.success) {
    const { path } = parsed.error.issues[0]!;
    const met = path.reduce<unknown>(
      (value, key) => (value as Record<PropertyKey, unknown> | undefined)?.[key],
      file,
    );
    const field = path.map((key) => (typeof key === 'number' ? `[${key}]` : `.${String(key)}`)).join('');
    return refused({ code: 'bad-manifest', field: field.replace(/^\./, ''), met: shown(met) });
  }
  const { type: _type, version: _version, ...manifest } = parsed.data;
  return { ok: true, manifest };
}

const LONGEST_SHOWN = 60;

function shown(value: unknown): string {
  const text = value === undefined ? 'nothing' : JSON.stringify(value);
  return text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text;
}
