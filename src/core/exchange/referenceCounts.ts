import { z } from 'zod';
import type { ReferenceCounts } from '../cover/adjustedCover.ts';

export const REFERENCE_COUNTS_VERSION = 1;

/** Why a reference-counts file cannot be used. */
export type ReferenceCountsProblem =
  | { readonly code: 'not-json'; readonly detail: string }
  | { readonly code: 'other-type'; readonly met: string }
  | { readonly code: 'newer-version'; readonly met: number; readonly newest: number }
  | {
      readonly code: 'bad-field';
      readonly field: string;
      readonly met: string;
      readonly allowed: ReferenceAllowed;
    }
  | { readonly code: 'wrong-size'; readonly field: string; readonly met: number; readonly wanted: number }
  | { readonly code: 'shares-do-not-add'; readonly sum: number }
  | { readonly code: 'no-points' };

export type ReferenceAllowed = 'version' | 'classes' | 'share' | 'count';

export type ReferenceCountsReading =
  | { readonly ok: true; readonly reference: ReferenceCounts }
  | { readonly ok: false; readonly problem: ReferenceCountsProblem };

const classNames = z.array(z.string().trim().min(1)).min(2).max(250);

/** Reads mask class against observed class at points (`reference-counts`, version 1). */
export function readReferenceCounts(text: string): ReferenceCountsReading {
  const bad = (problem: ReferenceCountsProblem): ReferenceCountsReading => ({ ok: false, problem });
  let json: unknown;
  try {
    json = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return bad({ code: 'not-json', detail: error instanceof Error ? error.message : String(error) });
  }
  const file = (typeof json === 'object' && json !== null && !Array.isArray(json) ? json : {}) as Record<
    string,
    unknown
  >;
  if (file.type !== 'reference-counts') return bad({ code: 'other-type', met: shown(file.type) });
  const version = z.int().min(1).safeParse(file.version);
  if (!version.success) return badField('version', file.version, 'version');
  if (version.data > REFERENCE_COUNTS_VERSION) {
    return bad({ code: 'newer-version', met: version.data, newest: REFERENCE_COUNTS_VERSION });
  }
  const classes = classNames.safeParse(file.classes);
  if (!classes.success || new Set(classes.data).size !== classes.data.length) {
    return badField('classes', file.classes, 'classes');
  }
  const size = classes.data.length;
  const mapped = numbers('mappedFraction', file.mappedFraction, size, 'share');
  if ('code' in mapped) return bad(mapped);
  const sum = mapped.values.reduce((total, value) => total + value, 0);
  if (Math.abs(sum - 1) > 1e-3) return bad({ code: 'shares-do-not-add', sum });
  if (!Array.isArray(file.counts)) return badField('counts', file.counts, 'count');
  if (file.counts.length !== size)
    return bad({ code: 'wrong-size', field: 'counts', met: file.counts.length, wanted: size });
  const counts: (readonly number[])[] = [];
  for (const [index, row] of (file.counts as unknown[]).entries()) {
    const read = numbers(`counts[${index}]`, row, size, 'count');
    if ('code' in read) return bad(read);
    counts.push(read.values);
  }
  if (counts.flat().every((count) => count === 0)) return bad({ code: 'no-points' });
  // shares written with few digits are brought to add to exactly 1
  const mappedFraction = mapped.values.map((value) => value / sum);
  return { ok: true, reference: { classes: classes.data, mappedFraction, counts } };
}

/** The file of these counts, as `readReferenceCounts` reads it. */
export function writeReferenceCounts({ classes, mappedFraction, counts }: ReferenceCounts): string {
  const rows = counts.map((row) => `  ${JSON.stringify(row)}`).join(',\n');
  return [
    `{"type": "reference-counts", "version": ${REFERENCE_COUNTS_VERSION},`,
    ` "classes": ${JSON.stringify(classes)},`,
    ` "mappedFraction": ${JSON.stringify(mappedFraction)},`,
    ` "counts": [\n${rows}\n ]}\n`,
  ].join('\n');
}

function badField(field: string, met: unknown, allowed: ReferenceAllowed): ReferenceCountsReading {
  return { ok: false, problem: { code: 'bad-field', field, met: shown(met), allowed } };
}

function numbers(
  field: string,
  met: unknown,
  size: number,
  allowed: 'share' | 'count',
): { readonly values: readonly number[] } | ReferenceCountsProblem {
  if (!Array.isArray(met)) return { code: 'bad-field', field, met: shown(met), allowed };
  if (met.length !== size) return { code: 'wrong-size', field, met: met.length, wanted: size };
  const schema = allowed === 'share' ? z.number().min(0).max(1) : z.int().min(0);
  const index = met.findIndex((value) => !schema.safeParse(value).success);
  if (index >= 0) return { code: 'bad-field', field: `${field}[${index}]`, met: shown(met[index]), allowed };
  return { values: met as number[] };
}

/** A value as it stands in the file, cut short. */
function shown(value: unknown): string {
  if (value === undefined) return 'missing';
  const text = JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}
