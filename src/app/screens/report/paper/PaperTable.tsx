import type { ReactNode } from 'react';

export interface PaperColumn {
  readonly head: string;
  /** Set flush right. @default false */
  readonly numeric?: boolean;
  /** As wide as its words and no wider. @default false */
  readonly narrow?: boolean;
  /** @default as the words need it */
  readonly widthMm?: number;
}

export interface PaperRow {
  readonly key: string;
  /** The first is the heading of the row. */
  readonly cells: readonly ReactNode[];
  /** Set apart, as the untreated control is. @default false */
  readonly strong?: boolean;
}

/** Longer tables run over the page. */
const MOST_ROWS_WHOLE = 16;

interface PaperTableProps {
  readonly caption: string;
  readonly columns: readonly PaperColumn[];
  readonly rows: readonly PaperRow[];
  /** Below the table. @default none */
  readonly notes?: readonly string[];
  /** Of facts: a column of names, a column of values, no heads on top. @default false */
  readonly facts?: boolean;
  readonly className?: string;
}

/** A numbered table; its heads stand again on every page it runs over. */
export function PaperTable(props: PaperTableProps) {
  const { caption, columns, rows, notes = [], facts = false, className } = props;
  return (
    <div
      className={['paper-table', facts && 'paper-facts', className].filter(Boolean).join(' ')}
      data-whole={rows.length <= MOST_ROWS_WHOLE}
    >
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than the screen is scrolled by keys */}
      <section className="paper-scroll" aria-label={caption} tabIndex={0}>
        <table>
          <caption>{caption}</caption>
          {!facts && (
            <thead>
              <tr>
                {columns.map(({ head, numeric = false, narrow = false, widthMm }) => (
                  <th
                    key={head}
                    scope="col"
                    data-numeric={numeric}
                    data-narrow={narrow}
                    style={widthMm === undefined ? undefined : { width: `${widthMm}mm` }}
                  >
                    {head}
                  </th>
                ))}
              </tr>
            </thead>
          )}
          <tbody>
            {rows.map(({ key, cells, strong = false }) => (
              <tr key={key} data-strong={strong}>
                {cells.map((cell, index) => {
                  const { head, numeric = false, narrow = false } = columns[index]!;
                  return index === 0 ? (
                    <th key={head} scope="row" data-narrow={narrow}>
                      {cell}
                    </th>
                  ) : (
                    <td key={head} data-numeric={numeric} data-narrow={narrow}>
                      {cell}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {notes.length > 0 && <p className="paper-notes">{notes.join(' ')}</p>}
    </div>
  );
}
