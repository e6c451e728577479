import type { RecordOf, TableName } from '../tables.ts';
import type { ArchiveContents, SmallTable } from './archivedTables.ts';

/** One of the two sides of a merge: what is here, or what an archive holds. */
export interface MergeSide {
  readonly contents: ArchiveContents;
  /** SHA-256 of the correction layers, by photo. */
  readonly layerSha256: ReadonlyMap<string, string>;
}

/** What two people said differently of one photo. */
export type PhotoAspect = 'place' | 'mask' | 'strokes';

/** Something both sides have, each in its own way, and neither is known to come after the other. */
export type MergeConflict =
  | {
      readonly kind: 'photo';
      readonly id: string;
      readonly photo: RecordOf<'photos'>;
      readonly aspects: readonly PhotoAspect[];
      readonly here: PhotoState;
      readonly there: PhotoState;
    }
  | {
      readonly kind: 'plan';
      readonly id: string;
      /** Fields that differ, in the audit's notation. */
      readonly fields: readonly string[];
      readonly here: { readonly changedAt: string };
      readonly there: { readonly changedAt: string };
    }
  | {
      readonly kind: 'score';
      readonly id: string;
      readonly here: RecordOf<'scores'>;
      readonly there: RecordOf<'scores'>;
    }
  | { readonly kind: 'weather'; readonly id: string; readonly days: readonly string[] };

/** What one side says of a photo, in short. */
export interface PhotoState {
  readonly plot: string | null;
  readonly place: number | null;
  readonly ratingDate: string | null;
  /** Gestures of correction, and who made the last one and when. */
  readonly gestures: number;
  readonly correctedBy: string | null;
  readonly correctedAt: string | null;
  readonly settingsChangedAt: string | null;
  readonly strokes: number;
}

/** Whose of a conflict is to count. */
export type Side = 'here' | 'there';

interface Counts {
  readonly new: number;
  readonly same: number;
  /** There it was carried on from what is here: taken over. */
  readonly continued: number;
  /** Here it was carried on from what is there: nothing to take. */
  readonly behind: number;
  readonly conflicts: number;
}

export interface MergeSummary {
  readonly trial: 'none' | 'new' | 'same' | 'continued' | 'behind' | 'conflict';
  readonly photos: Counts;
  readonly scores: Counts;
  /** Records of all other tables that are added, by table. */
  readonly added: Readonly<Partial<Record<SmallTable, number>>>;
}

export type MergePlanning =
  | { readonly ok: true; readonly plan: MergePlan }
  /** Here and there are two different trials, and one browser profile works on one. */
  | { readonly ok: false; readonly code: 'other-trial'; readonly here: string; readonly there: string };

export interface MergePlan {
  readonly summary: MergeSummary;
  readonly conflicts: readonly MergeConflict[];
  /** Photos that are not here yet; ids as they will be. */
  readonly newPhotos: readonly NewPhotoOfMerge[];
  /** Everything that would be written, with each conflict decided. Nothing for a merge that brings nothing. */
  changes(decisions: ReadonlyMap<string, Side>): MergeChanges;
}

export interface NewPhotoOfMerge {
  readonly id: string;
  /** Its id in the archive. */
  readonly archiveId: string;
}

export interface MergeChanges {
  readonly puts: readonly { readonly table: TableName; readonly record: unknown }[];
  readonly deletes: readonly { readonly table: TableName; readonly record: unknown }[];
  /** Photos already here whose automatic mask comes from the archive. */
  readonly masksFrom: readonly NewPhotoOfMerge[];
  /** Conflicts decided for the archive, for the audit. */
  readonly overruled: readonly {
    readonly subject: TableName;
    readonly subjectId: string;
    readonly before: unknown;
    readonly after: unknown;
  }[];
  readonly photoIds: readonly string[];
  readonly trialIds: readonly string[];
}
