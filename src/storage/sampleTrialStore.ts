import { ARCHIVED_SETTINGS, keyParts, LARGE_TABLES } from './archive/archivedTables.ts';
import type { Written } from './storageProblem.ts';
import type { CheckedTable, StoreContext } from './storeContext.ts';
import { TABLE_NAMES, type TableName } from './tables.ts';

/** Fields by which a record hangs on another. */
const LINKS = ['photoId', 'trialId', 'pointSetId', 'subjectId'] as const;
/** Read record by record; bytes are found by the photo they belong to, and settings belong to no record. */
const LISTED: readonly TableName[] = [
  ...TABLE_NAMES.filter(
    (name) =>
      !['settings', 'auditEntries'].includes(name) && !(LARGE_TABLES as readonly string[]).includes(name),
  ),
  'auditEntries',
];

/** The sample trial: taken in as an archive, taken away by what its ids begin with. */
export class SampleTrialStore {
  readonly #context: StoreContext;

  constructor(context: StoreContext) {
    this.#context = context;
  }

  /**
   * Removes trials and photos whose ids begin with the prefix, and everything that hangs on them, without a trace in the
   * audit: nothing of it was anybody's work. Other photos stay. Where none are left, what was set for rating dates goes too.
   */
  remove(prefix: string): Promise<Written<void>> {
    let gone: { photoIds: string[]; trialIds: string[] } = { photoIds: [], trialIds: [] };
    return this.#context.write(
      TABLE_NAMES,
      async (tables) => {
        const isSample = ({ id }: { readonly id: string }) => id.startsWith(prefix);
        const photos = await tables.photos.all();
        gone = {
          photoIds: photos.filter(isSample).map(({ id }) => id),
          trialIds: (await tables.trials.all()).filter(isSample).map(({ id }) => id),
        };
        const ids = new Set([...gone.photoIds, ...gone.trialIds]);
        for (const { id, photoId } of await tables.pointSets.all()) if (ids.has(photoId)) ids.add(id);
        for (const id of await modelsOnlyOf(ids, tables)) ids.add(id);
        for (const name of LISTED) {
          const table = tables[name] as CheckedTable<TableName>;
          for (const record of await table.all()) {
            const fields = record as unknown as Readonly<Record<string, unknown>>;
            const names = [fields.id, ...LINKS.map((link) => fields[link])];
            if (!names.some((one) => ids.has(one as string))) continue;
            // the audit, which is read last, also speaks of records that hang on others
            ids.add(fields.id as string);
            const parts = keyParts(name, record);
            await table.delete(parts.length === 1 ? (parts[0] as string) : parts);
          }
        }
        for (const id of gone.photoIds) for (const name of LARGE_TABLES) await tables[name].delete(id);
        if (photos.length > gone.photoIds.length) return;
        for (const name of ARCHIVED_SETTINGS) await tables.settings.delete(name);
      },
      () => ({ ...gone, correctedIds: gone.photoIds, points: true }),
    );
  }
}

/** Models that photos of the sample were measured with, and no other photo. */
async function modelsOnlyOf(
  ids: ReadonlySet<string>,
  tables: {
    readonly photoSettings: CheckedTable<'photoSettings'>;
    readonly figures: CheckedTable<'figures'>;
    readonly models: CheckedTable<'models'>;
  },
): Promise<string[]> {
  const uses = [...(await tables.photoSettings.all()), ...(await tables.figures.all())];
  const ofOthers = new Set(uses.flatMap(({ photoId, modelId }) => (ids.has(photoId) ? [] : [modelId])));
  const ofSample = new Set(uses.flatMap(({ photoId, modelId }) => (ids.has(photoId) ? [modelId] : [])));
  return (await tables.models.all())
    .map(({ id }) => id)
    .filter((id) => ofSample.has(id) && !ofOthers.has(id));
}
