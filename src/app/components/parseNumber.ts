export type ParsedNumber =
  | { readonly ok: true; readonly value: number | null }
  | { readonly ok: false; readonly code: 'not-a-number' | 'out-of-range' };

interface NumberLimits {
  readonly least: number;
  readonly most: number;
  /** Whether nothing typed is an answer: null. */
  readonly optional: boolean;
}

/** A number as people type it, with a decimal comma or point. */
export function parseNumber(typed: string, { least, most, optional }: NumberLimits): ParsedNumber {
  const text = typed.trim();
  if (text === '' && optional) return { ok: true, value: null };
  if (!/^[-+]?(\d+([.,]\d*)?|[.,]\d+)$/.test(text)) return { ok: false, code: 'not-a-number' };
  const value = Number(text.replace(',', '.'));
  return value >= least && value <= most ? { ok: true, value } : { ok: false, code: 'out-of-range' };
}
