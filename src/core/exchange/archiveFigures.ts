import { z } from 'zod';
import type { CoverModel } from '../classifier/coverModel.ts';
import type { MeasureSettings } from '../cover/measurePhoto.ts';
import type { PointCall } from '../point-grid/pointCall.ts';
import type { PointSet } from '../point-grid/pointSet.ts';
import { groupBy } from '../trial/groupBy.ts';
import type { StoredBytes } from './archiveRecords.ts';

/*
 * What of an archive says how a figure was made. Only the fields that are needed to make it again are looked at, so that a
 * record that gained others can still be verified.
 */

const id = z.string().min(1);
const file = z.looseObject({ file: z.string() });

const photoSchema = z.looseObject({ id, name: z.string(), sha256: z.string() });
const figureSchema = z.looseObject({
  id,
  photoId: id,
  method: z.enum(['automatic', 'corrected', 'points', 'adjusted', 'visual']),
  current: z.int(),
  cover: z.array(z.looseObject({ classId: id, pixels: z.number(), coverFraction: z.number() })).min(1),
  modelId: z.string(),
  measuredAt: z.string(),
  softwareVersion: z.string(),
  settings: z.looseObject({
    classes: z.array(z.looseObject({ id, startRole: z.string().nullable() })).min(1),
    frame: z.looseObject({ corners: z.array(z.tuple([z.number(), z.number()])).length(4) }).nullable(),
    ignored: z.array(z.array(z.tuple([z.number(), z.number()]))),
    neutral: z.tuple([z.number(), z.number(), z.number(), z.number()]).nullable(),
    modelId: z.string().optional(),
  }),
  correctionsSha256: z.string().nullable(),
});
const photoBytesSchema = z.looseObject({ photoId: id, bytes: file });
const maskSchema = z.looseObject({ photoId: id, figureId: id, bytes: file });
const correctionSchema = z.looseObject({ photoId: id, layer: file, classIds: z.array(id) });
const modelSchema = z.looseObject({ id, content: z.looseObject({ type: z.literal('cover-model') }) });
const pointSetSchema = z.looseObject({
  id,
  photoId: id,
  set: z.looseObject({ points: z.array(z.looseObject({ id: z.int() })) }),
});
const callSchema = z.looseObject({
  pointSetId: id,
  pointId: z.int(),
  observer: z.string(),
  classId: z.string().nullable(),
  at: z.tuple([z.number(), z.number()]),
  calledAt: z.string(),
  gapRule: z.looseObject({ kind: z.string() }),
});

const SCHEMAS = {
  photos: photoSchema,
  figures: figureSchema,
  photoBytes: photoBytesSchema,
  automaticMasks: maskSchema,
  corrections: correctionSchema,
  models: modelSchema,
  pointSets: pointSetSchema,
  calls: callSchema,
} as const;

/** Tables that say how figures were made. */
export const FIGURE_TABLES = Object.keys(SCHEMAS) as readonly (keyof typeof SCHEMAS)[];
export type FigureTable = (typeof FIGURE_TABLES)[number];

/** A stored figure. */
export interface ArchivedFigure {
  readonly id: string;
  readonly method: 'automatic' | 'corrected' | 'points' | 'adjusted' | 'visual';
  readonly isCurrent: boolean;
  readonly cover: readonly {
    readonly classId: string;
    readonly pixels: number;
    readonly coverFraction: number;
  }[];
  readonly modelId: string;
  readonly measuredAt: string;
  readonly softwareVersion: string;
  readonly settings: MeasureSettings;
  readonly correctionsSha256: string | null;
}

/** A photo with its figures and all they were made of; files by their paths in the archive. */
export interface ArchivedPhoto {
  readonly id: string;
  readonly name: string;
  readonly sha256: string;
  readonly figures: readonly ArchivedFigure[];
  /** Null where the archive does not hold the photo. */
  readonly file: string | null;
  readonly mask: { readonly figureId: string; readonly file: string } | null;
  readonly corrections: { readonly file: string; readonly classIds: readonly string[] } | null;
  readonly pointSets: readonly { readonly set: PointSet; readonly calls: readonly PointCall[] }[];
}

export interface ArchivedFigures {
  /** With figures, in the order of their names. */
  readonly photos: readonly ArchivedPhoto[];
  readonly models: ReadonlyMap<string, CoverModel>;
  /** Records that cannot be read: what they say is not verified. */
  readonly unreadable: readonly { readonly table: string; readonly index: number; readonly field: string }[];
}

/** Gathers what an archive says of its figures. @param tables records as the archive holds them */
export function archivedFigures(tables: Readonly<Record<FigureTable, readonly unknown[]>>): ArchivedFigures {
  const unreadable: ArchivedFigures['unreadable'][number][] = [];
  const read = <Name extends FigureTable>(table: Name): z.infer<(typeof SCHEMAS)[Name]>[] =>
    tables[table].flatMap((record, index) => {
      const parsed = SCHEMAS[table].safeParse(record);
      if (parsed.success) return [record as z.infer<(typeof SCHEMAS)[Name]>];
      unreadable.push({ table, index, field: parsed.error.issues[0]!.path.join('.') });
      return [];
    });
  const fileOf = (stored: StoredBytes | undefined): string | null =>
    stored && 'file' in stored ? stored.file : null;
  const figures = groupBy(read('figures'), ({ photoId }) => photoId);
  const bytes = new Map(read('photoBytes').map((record) => [record.photoId, record]));
  const masks = new Map(read('automaticMasks').map((record) => [record.photoId, record]));
  const corrections = new Map(read('corrections').map((record) => [record.photoId, record]));
  const calls = groupBy(read('calls'), ({ pointSetId }) => pointSetId);
  const sets = groupBy(read('pointSets'), ({ photoId }) => photoId);
  const photos = read('photos').flatMap(({ id: photoId, name, sha256 }): ArchivedPhoto[] => {
    const own = figures.get(photoId);
    if (!own) return [];
    const mask = masks.get(photoId);
    const layer = corrections.get(photoId);
    return [
      {
        id: photoId,
        name,
        sha256,
        figures: own.map(({ current, settings, ...figure }) => ({
          ...figure,
          isCurrent: current === 1,
          settings: settings as unknown as MeasureSettings,
        })),
        file: fileOf(bytes.get(photoId)?.bytes),
        mask: mask ? { figureId: mask.figureId, file: mask.bytes.file } : null,
        corrections: layer ? { file: layer.layer.file, classIds: layer.classIds } : null,
        pointSets: (sets.get(photoId) ?? []).map(({ id: setId, set }) => ({
          set: set as unknown as PointSet,
          calls: (calls.get(setId) ?? []) as unknown as PointCall[],
        })),
      },
    ];
  });
  return {
    photos: photos.sort((a, b) => (a.name < b.name ? -1 : 1)),
    models: new Map(read('models').map((record) => [record.id, record.content as unknown as CoverModel])),
    unreadable,
  };
}
