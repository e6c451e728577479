import type { RecordOf, TableName } from '../tables.ts';
import type { SmallTable } from './archivedTables.ts';
import type { Direction } from './mergePhoto.ts';
import type {
  MergeChanges,
  MergeConflict,
  MergePlan,
  MergeSummary,
  NewPhotoOfMerge,
  Side,
} from './mergeTypes.ts';

type Step = () => unknown;

const noCounts = () => ({ new: 0, same: 0, continued: 0, behind: 0, conflicts: 0 });

/** Gathers what a merge would do: at once, or once a conflict is decided. */
export class MergeDraft {
  readonly #archiveIdOf: ReadonlyMap<string, string>;
  readonly #conflicts: MergeConflict[] = [];
  readonly #steps: { readonly conflict: string | null; readonly here: Step | null; readonly there: Step }[] =
    [];
  readonly #newPhotos: NewPhotoOfMerge[] = [];
  readonly #photos = noCounts();
  readonly #scores = noCounts();
  readonly #added: Partial<Record<SmallTable, number>> = {};
  #trial: MergeSummary['trial'] = 'none';
  /** What the steps write to while `changes` runs them. */
  #out: Written | null = null;
  /** What is written whatever is decided. */
  readonly #always = new Written();

  /** @param archiveIdOf ids of photos in the archive, by their ids here */
  constructor(archiveIdOf: ReadonlyMap<string, string>) {
    this.#archiveIdOf = archiveIdOf;
  }

  put(table: TableName, record: unknown): void {
    (this.#out ?? this.#always).puts.push({ table, record });
  }

  delete(table: TableName, record: unknown): void {
    (this.#out ?? this.#always).deletes.push({ table, record });
  }

  /** A record of a table that only ever grows. */
  add(table: SmallTable, record: unknown): void {
    this.#added[table] = (this.#added[table] ?? 0) + 1;
    this.put(table, record);
  }

  newPhoto(photo: RecordOf<'photos'>): void {
    this.#photos.new += 1;
    this.#newPhotos.push({ id: photo.id, archiveId: this.#archiveIdOf.get(photo.id)! });
    this.put('photos', photo);
  }

  takeMask(photoId: string): void {
    this.#out!.masksFrom.push({ id: photoId, archiveId: this.#archiveIdOf.get(photoId)! });
  }

  overrule(subject: TableName, subjectId: string, before: unknown, after: unknown): void {
    this.#out!.overruled.push({ subject, subjectId, before, after });
  }

  conflict(conflict: MergeConflict): void {
    this.#conflicts.push(conflict);
  }

  /** A step for when a conflict is decided for the archive; null: for every case. */
  later(conflict: string | null, there: Step): void {
    this.#steps.push({ conflict, here: conflict === null ? there : null, there });
  }

  /** A step for either decision. */
  either(conflict: string, here: Step, there: Step): void {
    this.#steps.push({ conflict, here, there });
  }

  trial(state: MergeSummary['trial']): void {
    this.#trial = state;
  }

  countPhoto(directions: readonly Direction[]): void {
    count(this.#photos, worst(directions));
  }

  countScore(direction: Direction | 'new'): void {
    count(this.#scores, direction);
  }

  plan(): MergePlan {
    const newPhotos = [...this.#newPhotos];
    return {
      summary: { trial: this.#trial, photos: this.#photos, scores: this.#scores, added: this.#added },
      conflicts: this.#conflicts,
      newPhotos,
      changes: (decisions) => this.#changes(decisions),
    };
  }

  #changes(decisions: ReadonlyMap<string, Side>): MergeChanges {
    const out = new Written();
    out.puts.push(...this.#always.puts);
    out.deletes.push(...this.#always.deletes);
    this.#out = out;
    for (const { conflict, here, there } of this.#steps) {
      const side = conflict === null ? 'there' : (decisions.get(conflict) ?? 'here');
      if (side === 'there') there();
      else here?.();
    }
    this.#out = null;
    const { puts, deletes, masksFrom, overruled } = out;
    const fields = [...puts, ...deletes].map(
      ({ table, record }) => [table, record as Record<string, string>] as const,
    );
    const ids = (field: string, own: TableName) =>
      new Set(fields.flatMap(([table, record]) => record[table === own ? 'id' : field] ?? []));
    return {
      puts,
      deletes,
      masksFrom,
      overruled,
      photoIds: [...ids('photoId', 'photos')],
      trialIds: [...ids('trialId', 'trials')],
    };
  }
}

class Written {
  readonly puts: { readonly table: TableName; readonly record: unknown }[] = [];
  readonly deletes: { readonly table: TableName; readonly record: unknown }[] = [];
  readonly masksFrom: NewPhotoOfMerge[] = [];
  readonly overruled: { subject: TableName; subjectId: string; before: unknown; after: unknown }[] = [];
}

/** What a photo counts as, of what its parts are. */
const worst = (directions: readonly Direction[]): Direction =>
  (['conflict', 'continued', 'behind'] as const).find((one) => directions.includes(one)) ?? 'same';

function count(counts: ReturnType<typeof noCounts>, what: Direction | 'new'): void {
  counts[what === 'conflict' ? 'conflicts' : what] += 1;
}
