import type { RecordOf } from '../tables.ts';
import { ARCHIVED_SETTINGS, type ArchiveContents, SMALL_TABLES } from './archivedTables.ts';

/** What an archive is to hold. */
export interface ArchiveScope {
  /** The trial; null for photos without one. */
  readonly trialId: string | null;
  /** Photos of this date only, null for those without one; left out: all photos. */
  readonly ratingDate?: string | null;
}

/**
 * The records of a scope, out of all records: what belongs to the trial, its photos, and all that hangs on them. Facts that
 * belong to the device (when a photo last left it) are left out.
 */
export function recordsInScope(all: ArchiveContents, scope: ArchiveScope): ArchiveContents {
  const ofTrial = ({ trialId }: { readonly trialId: string | null }) =>
    trialId === null || trialId === scope.trialId;
  // a photo that was replaced stays with the date it was taken for
  const ofDate = ({ ratingDate, replaced }: RecordOf<'photos'>) =>
    scope.ratingDate === undefined || (replaced?.ratingDate ?? ratingDate) === scope.ratingDate;
  const photos = all.photos.filter((photo) => ofTrial(photo) && ofDate(photo));
  const inside = new Set(photos.map(({ id }) => id));
  const elsewhere = new Set(all.photos.map(({ id }) => id).filter((id) => !inside.has(id)));
  const sets = new Set(all.pointSets.filter(({ photoId }) => inside.has(photoId)).map(({ id }) => id));
  const used = new Set([
    ...all.photoSettings.filter(({ photoId }) => inside.has(photoId)).map(({ modelId }) => modelId),
    ...all.figures.filter(({ photoId }) => inside.has(photoId)).map(({ modelId }) => modelId),
  ]);
  const keep = (table: string, record: Record<string, unknown>): boolean => {
    if (table === 'trials') return record.id === scope.trialId;
    if (table === 'calls') return sets.has(record.pointSetId as string);
    if (table === 'settings') return ARCHIVED_SETTINGS.includes(record.name as string);
    if (table === 'auditEntries') return !elsewhere.has(record.subjectId as string);
    if (table === 'models') {
      const { id, ratingDate, trialId } = record as RecordOf<'models'>;
      return (
        ofTrial({ trialId }) &&
        (scope.ratingDate === undefined || ratingDate === scope.ratingDate || used.has(id))
      );
    }
    if ('photoId' in record) return inside.has(record.photoId as string);
    return !('trialId' in record) || ofTrial(record as { trialId: string | null });
  };
  const chosen = SMALL_TABLES.map((table) => {
    const records: readonly Record<string, unknown>[] = all[table];
    return [
      table,
      table === 'photos' ? photos.map(withoutDeviceFacts) : records.filter((record) => keep(table, record)),
    ];
  });
  return Object.fromEntries(chosen) as ArchiveContents;
}

function withoutDeviceFacts({ exportedAt: _exportedAt, ...photo }: RecordOf<'photos'>): RecordOf<'photos'> {
  return photo;
}
