import { fieldFaultText, fieldProblemText } from '../../core/text/trial.ts';
import type { FieldFault, FieldProblem } from '../../core/trial/fieldProblem.ts';
import { typedCelsius, typedMillimetres } from '../../core/trial/typedMeasure.ts';

/** A field's problems in words, to stand beside the field of this label. */
export function problemWords(
  label: string,
  problems: readonly FieldProblem[],
  field?: string,
): string | null {
  if (problems.length === 0) return null;
  const own = field === undefined ? problems[0] : problems.find((problem) => problem.field === field);
  if (!own) return field === undefined ? fieldProblemText(problems[0]!) : null;
  const { field: _field, value, ...fault } = own;
  return `${label} ${fieldFaultText(fault as FieldFault, value)}`;
}

/** A length in mm as typed, with its unit ("18 in") or without one; what is neither is handed on like a number. */
export const millimetresOf = (typed: string): unknown => typedMillimetres(typed) ?? numberOf(typed);

/** A temperature in degrees Celsius as typed, or in Fahrenheit where it says so ("65 F"). */
export const celsiusOf = (typed: string): unknown => typedCelsius(typed) ?? numberOf(typed);

/** A number as typed, with point or comma; what is no number is handed on for the schema to name. */
export function numberOf(typed: string): unknown {
  const text = typed.trim().replace(',', '.');
  if (text === '') return null;
  return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? Number(text) : typed;
}
