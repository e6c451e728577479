import type { z } from 'zod';
import type { Checked, FieldFault, FieldProblem } from './fieldProblem.ts';

type Path = readonly PropertyKey[];

/** Checks a value from outside (form, file, store) against a record's schema; every problem names its field. */
export function checkRecord<Value>(schema: z.ZodType<Value>, input: unknown): Checked<Value> {
  const result = schema.safeParse(input);
  if (result.success) return { ok: true, value: result.data };
  return { ok: false, problems: result.error.issues.map((issue) => problemOf(issue, input)) };
}

/** "applications[2].rate" for ['applications', 2, 'rate']; a symbol is the key of a list's member; "" is the record itself. */
export function fieldName(path: Path): string {
  return path
    .map((part) => {
      if (typeof part === 'symbol') return `[${part.description}]`;
      return typeof part === 'number' ? `[${part}]` : `.${part}`;
    })
    .join('')
    .replace(/^\./, '');
}

function valueAt(input: unknown, path: Path): unknown {
  let value = input;
  for (const part of path) {
    if (typeof value !== 'object' || value === null) return undefined;
    value = (value as Record<PropertyKey, unknown>)[part];
  }
  return value;
}

function problemOf(issue: z.core.$ZodIssue, input: unknown): FieldProblem {
  const value = valueAt(input, issue.path);
  return { field: fieldName(issue.path), value, ...faultOf(issue, value) };
}

function faultOf(issue: z.core.$ZodIssue, value: unknown): FieldFault {
  if (value === undefined && issue.code !== 'custom') return { code: 'missing' };
  switch (issue.code) {
    case 'custom':
      return (issue.params?.fault as FieldFault | undefined) ?? { code: 'wrong-kind', expected: 'value' };
    case 'too_small': {
      const least = Number(issue.minimum);
      if (issue.origin === 'string') return { code: 'blank' };
      if (issue.origin === 'array') return { code: 'too-few', least };
      return { code: 'too-small', least, allowed: issue.inclusive !== false };
    }
    case 'too_big': {
      const most = Number(issue.maximum);
      if (issue.origin === 'string') return { code: 'too-long', most };
      if (issue.origin === 'array') return { code: 'too-many', most };
      return { code: 'too-large', most, allowed: issue.inclusive !== false };
    }
    case 'invalid_value':
      return { code: 'not-one-of', allowed: issue.values.map(String) };
    case 'invalid_union':
      // A union told apart by a field (`kind`, `state`): the field is the one with a value that is not on the list.
      return 'options' in issue && Array.isArray(issue.options)
        ? { code: 'not-one-of', allowed: issue.options.map(String) }
        : { code: 'wrong-kind', expected: 'value' };
    case 'unrecognized_keys':
      return { code: 'unknown-field', names: issue.keys };
    case 'invalid_format':
      // The one format of zod's own in these records is the instant of an audit entry.
      return { code: 'not-in-this-form', form: 'instant' };
    case 'invalid_type':
      return issue.expected === 'int'
        ? { code: 'not-whole' }
        : { code: 'wrong-kind', expected: String(issue.expected) };
    default:
      return { code: 'wrong-kind', expected: 'value' };
  }
}
