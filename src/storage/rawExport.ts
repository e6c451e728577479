/** Pieces above this many characters are handed to the browser as a Blob, so that an export never sits in memory. */
const PIECE_CHARACTERS = 8_000_000;

/**
 * Writes tables as one JSON file: `{type, version, database, databaseVersion, tables: {name: [record, ...]}}`.
 * Buffers become `{"base64": "..."}`. Knows nothing of what records mean, so that it works on every version.
 *
 * @param each calls `write` for every record of a table, one after the other
 */
export async function rawExport<Table>(
  database: string,
  databaseVersion: number,
  tables: readonly (readonly [name: string, table: Table])[],
  each: (table: Table, write: (record: unknown) => Promise<void>) => Promise<void>,
): Promise<Blob> {
  let whole = new Blob([], { type: 'application/json' });
  let piece = '';
  const flush = () => {
    whole = new Blob([whole, piece], { type: 'application/json' });
    piece = '';
  };
  const head = { type: 'raw-records', version: 1, database, databaseVersion };
  piece += `${JSON.stringify(head).slice(0, -1)},"tables":{`;
  for (const [index, [name, table]] of tables.entries()) {
    piece += `${index === 0 ? '' : ','}\n${JSON.stringify(name)}:[`;
    let separator = '\n';
    await each(table, async (record) => {
      piece += separator + JSON.stringify(record, asJson);
      separator = ',\n';
      if (piece.length > PIECE_CHARACTERS) flush();
    });
    piece += ']';
  }
  piece += '}}\n';
  flush();
  return whole;
}

function asJson(_key: string, value: unknown): unknown {
  if (value instanceof ArrayBuffer) return { base64: base64Of(new Uint8Array(value)) };
  if (ArrayBuffer.isView(value))
    return { base64: base64Of(new Uint8Array(value.buffer, value.byteOffset, value.byteLength)) };
  return value;
}

/** Bytes as base64. @see RFC 4648, section 4 */
export function base64Of(bytes: Uint8Array): string {
  const pieces: string[] = [];
  // a multiple of three bytes, so that the pieces can be put together
  for (let from = 0; from < bytes.length; from += 24_576) {
    pieces.push(btoa(String.fromCharCode(...bytes.subarray(from, from + 24_576))));
  }
  return pieces.join('');
}
