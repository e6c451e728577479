/** A column of a table on the terminal. */
export interface TextColumn {
  readonly title: string;
  /** Numbers to the right, so that their points stand below each other. */
  readonly align: 'left' | 'right';
}

/** A plain table: titles, then rows, columns two spaces apart; columns without any cell are left out. */
export function textTable(columns: readonly TextColumn[], rows: readonly (readonly string[])[]): string {
  const kept = columns
    .map((_, index) => index)
    .filter((index) => rows.some((row) => (row[index] ?? '') !== ''));
  const widths = kept.map((index) =>
    Math.max(columns[index]!.title.length, ...rows.map((row) => (row[index] ?? '').length)),
  );
  const line = (cells: readonly string[]): string =>
    kept
      .map((index, position) => {
        const cell = cells[index] ?? '';
        return columns[index]!.align === 'left'
          ? cell.padEnd(widths[position]!)
          : cell.padStart(widths[position]!);
      })
      .join('  ')
      .trimEnd();
  return [line(columns.map(({ title }) => title)), ...rows.map(line)].join('\n');
}
