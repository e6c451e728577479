import type { RecordOf } from '../tables.ts';
import { type ArchiveContents, SMALL_TABLES } from './archivedTables.ts';
import type { MergeSide } from './mergeTypes.ts';

/** The archive's records under the names that the same things have here. */
export interface NamedAlike {
  readonly there: MergeSide;
  /** Photos of the archive by the id they have, or will have, here; the value is their id in the archive. */
  readonly archiveIdOf: ReadonlyMap<string, string>;
  /** Photos left out since another photo here has their id. */
  readonly idTaken: readonly string[];
}

/**
 * Gives the archive's records the ids of this database: a photo is the same photo when its bytes are, whoever took it in;
 * a trial is the same trial when its code is.
 */
export function namedAlike(here: ArchiveContents, side: MergeSide): NamedAlike {
  const { contents } = side;
  const bySha = new Map(here.photos.map((photo) => [photo.sha256, photo.id]));
  const takenBy = new Map(here.photos.map((photo) => [photo.id, photo.sha256]));
  const idTaken = contents.photos
    .filter(({ id, sha256 }) => !bySha.has(sha256) && takenBy.has(id))
    .map(({ id }) => id);
  const photoIds = new Map(contents.photos.map(({ id, sha256 }) => [id, bySha.get(sha256) ?? id]));
  const [trialHere, trialThere] = [here.trials[0], contents.trials[0]];
  const trialIds = new Map(trialHere && trialThere ? [[trialThere.id, trialHere.id]] : []);
  const left = new Set(idTaken);
  const nameOf = (id: unknown): unknown =>
    typeof id === 'string' ? (photoIds.get(id) ?? trialIds.get(id) ?? id) : id;
  const rename = (table: string, record: Record<string, unknown>): Record<string, unknown> => {
    const renamed = { ...record };
    if (table === 'photos' || table === 'trials') renamed.id = nameOf(record.id);
    for (const field of ['photoId', 'trialId', 'subjectId'])
      if (field in record) renamed[field] = nameOf(record[field]);
    if (Array.isArray(record.photoIds)) renamed.photoIds = record.photoIds.map(nameOf);
    return renamed;
  };
  const renamed = SMALL_TABLES.map((table) => {
    const records: readonly Record<string, unknown>[] = contents[table];
    const stay = records.filter(
      (record) => !left.has((table === 'photos' ? record.id : record.photoId) as string),
    );
    return [table, stay.map((record) => rename(table, record))];
  });
  return {
    there: {
      contents: Object.fromEntries(renamed) as ArchiveContents,
      layerSha256: new Map([...side.layerSha256].map(([id, sha256]) => [photoIds.get(id) ?? id, sha256])),
    },
    archiveIdOf: new Map(
      contents.photos.filter(({ id }) => !left.has(id)).map(({ id }) => [photoIds.get(id)!, id]),
    ),
    idTaken,
  };
}

/** Whether two trials are one trial: the code stands on every plot label. */
export function isSameTrial(a: RecordOf<'trials'>, b: RecordOf<'trials'>): boolean {
  return a.id === b.id || codeOf(a) === codeOf(b);
}

/** A plan that cannot be read in full still has its code, or none. */
export const codeOf = ({ plan }: RecordOf<'trials'>): string => String(plan.trial?.code ?? '');
export const nameOf = ({ plan }: RecordOf<'trials'>): string => String(plan.trial?.name ?? '');
