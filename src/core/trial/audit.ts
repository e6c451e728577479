import { z } from 'zod';
import { fieldName } from './checkRecord.ts';
import { nameField } from './fields.ts';

/** One change of one field. Names are typed: an entry says who signed with a name, not who sat at the screen. */
export const auditEntrySchema = z.strictObject({
  /** What was changed: "applications[A2].products[0].rate.amount"; list members by their id, number or plot. */
  field: z.string().min(1),
  /** JSON value before; absent fields and members are null. */
  old: z.json(),
  new: z.json(),
  who: nameField,
  /** Instant in UTC, ISO 8601. */
  when: z.iso.datetime(),
  why: nameField,
});
export type AuditEntry = z.infer<typeof auditEntrySchema>;

export interface AuditSignature {
  readonly who: string;
  readonly when: string;
  readonly why: string;
}

type Json = AuditEntry['old'];
type Path = readonly PropertyKey[];

/**
 * Compares two versions of a record, or of a whole plan, and tells every change of a field.
 *
 * Members of lists are matched by `id`, `number` or `plot` where all have one, so that inserting or sorting is not told as a
 * change of all that follow; a member that came or went is one entry with the whole member. Where the order of a list means
 * something, a change of it is one entry, "trial.classes.order".
 *
 * @returns changes in the order of the fields; empty when the two are alike
 * @throws RangeError without who or why: a change of trial data has both
 */
export function auditEntries(before: Json, after: Json, signature: AuditSignature): AuditEntry[] {
  for (const part of ['who', 'why'] as const) {
    if (signature[part].trim() === '') throw new RangeError(`a change of trial data says ${part}`);
  }
  return changes(before, after, []).map(([path, old, now]) => ({
    field: fieldName(path) || 'record',
    old,
    new: now,
    ...signature,
  }));
}

type Change = readonly [path: Path, old: Json, now: Json];

const isList = (value: Json): value is Json[] => Array.isArray(value);
const isObject = (value: Json): value is Record<string, Json> =>
  typeof value === 'object' && value !== null && !isList(value);

function changes(before: Json, after: Json, path: Path): Change[] {
  if (isList(before) && isList(after)) {
    const [old, now] = [keyed(before, after, before), keyed(before, after, after)];
    return [...memberChanges(old, now, path), ...orderChange(old, now, path)];
  }
  if (isObject(before) && isObject(after)) {
    return memberChanges(new Map(Object.entries(before)), new Map(Object.entries(after)), path);
  }
  return before === after ? [] : [[path, before, after]];
}

function memberChanges(
  before: ReadonlyMap<PropertyKey, Json>,
  after: ReadonlyMap<PropertyKey, Json>,
  path: Path,
): Change[] {
  const keys = new Set([...before.keys(), ...after.keys()]);
  return [...keys].flatMap((key) => changes(before.get(key) ?? null, after.get(key) ?? null, [...path, key]));
}

/** Lists whose order means something: the labels of a mask are its classes in order. */
const ORDERED_LISTS: readonly PropertyKey[] = ['classes'];

/** One entry where members that stay have changed places. */
function orderChange(
  before: ReadonlyMap<PropertyKey, Json>,
  after: ReadonlyMap<PropertyKey, Json>,
  path: Path,
): Change[] {
  if (!ORDERED_LISTS.includes(path.at(-1) ?? '')) return [];
  const nameOf = (key: PropertyKey) => (typeof key === 'symbol' ? (key.description ?? '') : String(key));
  const old = [...before.keys()].filter((key) => after.has(key)).map(nameOf);
  const now = [...after.keys()].filter((key) => before.has(key)).map(nameOf);
  return old.join('\n') === now.join('\n') ? [] : [[[...path, 'order'], old, now]];
}

const KEY_FIELDS = ['id', 'number', 'plot'] as const;

/** List members by a field that tells them apart in both lists, else by position. */
function keyed(
  before: readonly Json[],
  after: readonly Json[],
  list: readonly Json[],
): Map<PropertyKey, Json> {
  const keyOf = (member: Json, field: string) => (isObject(member) ? member[field] : undefined);
  const field = KEY_FIELDS.find((name) =>
    [before, after].every((members) => {
      const keys = members.map((member) => keyOf(member, name));
      const usable = keys.every((key) => typeof key === 'string' || typeof key === 'number');
      return usable && new Set(keys).size === keys.length;
    }),
  );
  if (field === undefined || before.length + after.length === 0) return new Map(list.entries());
  // Written in brackets like a position, so that the field reads "applications[A2].rate".
  return new Map(list.map((member) => [Symbol.for(String(keyOf(member, field))), member]));
}
