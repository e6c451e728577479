/**
 * JSON with exactly one form for one value: keys sorted, no spaces, ASCII only (other characters as \uXXXX), so that
 * its bytes can be hashed. Numbers as ECMAScript writes them (the shortest that reads back the same), as in RFC 8785;
 * keys are sorted by UTF-16 code units, as there. Keys whose value is undefined are left out.
 *
 * @throws TypeError for what JSON does not know: functions, instances of classes, undefined in a list, NaN and
 * infinite numbers
 */
export function canonicalJson(value: unknown): string {
  if (value === null || typeof value === 'boolean') return String(value);
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new TypeError(`JSON has no number ${value}`);
    return JSON.stringify(value);
  }
  if (typeof value === 'string') {
    return JSON.stringify(value).replace(
      /[\u007f-\uffff]/g,
      (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`,
    );
  }
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  if (typeof value === 'object' && Object.getPrototypeOf(value) === Object.prototype) {
    const entries = Object.entries(value)
      .filter(([, entry]) => entry !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1));
    return `{${entries.map(([key, entry]) => `${canonicalJson(key)}:${canonicalJson(entry)}`).join(',')}}`;
  }
  throw new TypeError(`JSON has no form for ${Object.prototype.toString.call(value)}`);
}
