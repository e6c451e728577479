import type * as z from 'zod/mini';
import { auditEntryRecord, settingRecord } from './records/bookkeepingRecords.ts';
import {
  correctionPatchRecord,
  correctionRecord,
  modelRecord,
  strokeRecord,
} from './records/correctionRecords.ts';
import { skippedPlaceRecord } from './records/fieldRecords.ts';
import {
  automaticMaskRecord,
  figureRecord,
  jobRecord,
  photoBytesRecord,
  photoCheckRecord,
  photoRecord,
  photoSettingsRecord,
  thumbnailRecord,
} from './records/photoRecords.ts';
import {
  countPlanRecord,
  fieldCountRecord,
  observerTestRecord,
  pointCallRecord,
  pointSetRecord,
} from './records/pointRecords.ts';
import { declarationRecord, reviewRecord, signOffRecord } from './records/reviewRecords.ts';
import { scoreRecord, trialRecord, weatherRecord } from './records/trialRecords.ts';

interface TableDefinition {
  readonly schema: z.ZodMiniType;
  /** Field or fields that make the primary key. */
  readonly key: readonly string[];
  /** Fields that records are looked up by. */
  readonly indexes: readonly string[];
}

const byId = ['id'];
const byPhoto = ['photoId'];
const ofTrial = ['trialId'];

/** Every table of the present version. A change here is a new version with a migration: see schemaVersions.ts. */
export const TABLES = {
  trials: { schema: trialRecord, key: byId, indexes: [] },
  photos: { schema: photoRecord, key: byId, indexes: ['sha256', 'trialId'] },
  photoBytes: { schema: photoBytesRecord, key: byPhoto, indexes: [] },
  thumbnails: { schema: thumbnailRecord, key: byPhoto, indexes: [] },
  photoSettings: { schema: photoSettingsRecord, key: byPhoto, indexes: [] },
  photoChecks: { schema: photoCheckRecord, key: byPhoto, indexes: [] },
  automaticMasks: { schema: automaticMaskRecord, key: byPhoto, indexes: [] },
  corrections: { schema: correctionRecord, key: byPhoto, indexes: ['figureDue'] },
  correctionPatches: { schema: correctionPatchRecord, key: ['photoId', 'sequence'], indexes: byPhoto },
  strokes: { schema: strokeRecord, key: byId, indexes: byPhoto },
  models: { schema: modelRecord, key: byId, indexes: ofTrial },
  figures: { schema: figureRecord, key: byId, indexes: ['photoId', 'current'] },
  countPlans: { schema: countPlanRecord, key: byId, indexes: ofTrial },
  pointSets: { schema: pointSetRecord, key: byId, indexes: byPhoto },
  calls: { schema: pointCallRecord, key: byId, indexes: ['pointSetId'] },
  fieldCounts: { schema: fieldCountRecord, key: byId, indexes: ofTrial },
  observerTests: { schema: observerTestRecord, key: byId, indexes: ofTrial },
  reviews: { schema: reviewRecord, key: byPhoto, indexes: [] },
  signOffs: { schema: signOffRecord, key: byId, indexes: ['ratingDate'] },
  declarations: { schema: declarationRecord, key: byId, indexes: ofTrial },
  scores: {
    schema: scoreRecord,
    key: ['trialId', 'variable', 'plot', 'ratingDate', 'rater'],
    indexes: ofTrial,
  },
  weather: { schema: weatherRecord, key: ['trialId'], indexes: [] },
  skippedPlaces: {
    schema: skippedPlaceRecord,
    key: ['trialId', 'ratingDate', 'plot', 'place'],
    indexes: ofTrial,
  },
  jobs: { schema: jobRecord, key: byPhoto, indexes: ['state'] },
  auditEntries: { schema: auditEntryRecord, key: byId, indexes: ['subjectId'] },
  settings: { schema: settingRecord, key: ['name'], indexes: [] },
} as const satisfies Record<string, TableDefinition>;

export type TableName = keyof typeof TABLES;
export type RecordOf<Name extends TableName> = z.infer<(typeof TABLES)[Name]['schema']>;

export const TABLE_NAMES = Object.keys(TABLES) as readonly TableName[];

export type RecordKey = string | readonly (string | number)[];

/** The primary key of a record; undefined parts where the record lacks them. */
export function keyOf(table: TableName, record: unknown): RecordKey {
  const parts = TABLES[table].key.map((field) => (record as Record<string, string | number>)[field]!);
  return parts.length === 1 ? (parts[0] as string) : parts;
}
