/**
 * JSON with two spaces of indentation and a line break at its end; a number that is not finite is a mistake of the program,
 * never written as null.
 *
 * @throws RangeError naming the field
 */
export function finiteJson(value: unknown): string {
  const text = JSON.stringify(
    value,
    (key, field: unknown) => {
      if (typeof field === 'number' && !Number.isFinite(field))
        throw new RangeError(`${key} must be finite, got ${field}`);
      return field;
    },
    2,
  );
  return `${text}\n`;
}
