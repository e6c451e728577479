/**
 * What is wrong with one field of a record, as values; core/text makes the sentence.
 * `field` is a path a person can follow: "applications[2].products[0].rate.amount".
 */
export type FieldProblem = { readonly field: string; readonly value: unknown } & FieldFault;

export type FieldFault =
  | { readonly code: 'missing' }
  | { readonly code: 'wrong-kind'; readonly expected: string }
  | { readonly code: 'too-small'; readonly least: number; readonly allowed: boolean }
  | { readonly code: 'too-large'; readonly most: number; readonly allowed: boolean }
  | { readonly code: 'too-few'; readonly least: number }
  | { readonly code: 'too-many'; readonly most: number }
  | { readonly code: 'too-long'; readonly most: number }
  | { readonly code: 'blank' }
  | { readonly code: 'not-one-of'; readonly allowed: readonly string[] }
  | { readonly code: 'unknown-field'; readonly names: readonly string[] }
  | { readonly code: 'not-a-day' }
  | { readonly code: 'not-a-clock-time' }
  | { readonly code: 'not-whole' }
  | { readonly code: 'not-in-this-form'; readonly form: FieldForm }
  | { readonly code: 'unit-unknown'; readonly allowed: readonly string[] }
  | { readonly code: 'ounce-unclear'; readonly choices: readonly [weight: string, fluid: string] }
  | { readonly code: 'unit-of-wrong-kind'; readonly expected: readonly string[] }
  | { readonly code: 'net-larger-than-gross'; readonly grossMm: number }
  | { readonly code: 'bounds-crossed'; readonly least: number; readonly most: number }
  | { readonly code: 'step-does-not-fit'; readonly least: number; readonly most: number }
  | { readonly code: 'not-unique' };

/** A checked value, or all that is wrong with it: never half of it. */
export type Checked<Value, Problem = FieldProblem> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Forms that texts in records have; core/text says each in words. */
export type FieldForm = 'id' | 'plot-name' | 'trial-code' | 'class-id' | 'class-key' | 'colour' | 'instant';
