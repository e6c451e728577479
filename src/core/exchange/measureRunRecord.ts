import { z } from 'zod';

/** What the rows of a photo in a cover table rest on, so that a later run can tell whether they still hold. */
export interface PhotoRecord {
  /** Of the photo file. */
  readonly photoSha256: string;
  /** Of its settings, the model and the program. */
  readonly settingsSha256: string;
  /** Of its rows as they were written: a row edited by hand is told from it. */
  readonly rowsSha256: string;
  /** The rule for small gaps they were measured by; left out: every pixel counted. */
  readonly gapsSmallerThanMm?: number | undefined;
}

const hash = z.string().regex(/^[0-9a-f]{64}$/);
const schema = z.object({
  type: z.literal('measure-run'),
  version: z.literal(1),
  photos: z.record(
    z.string(),
    z.object({
      photoSha256: hash,
      settingsSha256: hash,
      rowsSha256: hash,
      gapsSmallerThanMm: z.number().positive().optional(),
    }),
  ),
});

/** The record of a run by photo; empty where it cannot be read, so that nothing rests on it. */
export function readMeasureRunRecord(text: string): ReadonlyMap<string, PhotoRecord> {
  try {
    return new Map(Object.entries(schema.parse(JSON.parse(text)).photos));
  } catch {
    return new Map();
  }
}

export function writeMeasureRunRecord(photos: ReadonlyMap<string, PhotoRecord>): string {
  const record: z.infer<typeof schema> = {
    type: 'measure-run',
    version: 1,
    photos: Object.fromEntries(photos),
  };
  return `${JSON.stringify(record, null, 1)}\n`;
}
