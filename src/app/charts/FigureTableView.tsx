import type { FigureTable } from './drawing.ts';
import styles from './Figure.module.css';

/** The data of a picture as a table. */
export function FigureTableView({ table, caption }: { table: FigureTable; caption: string }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls can be scrolled by keys
    <section className={styles.table} aria-label={caption} tabIndex={0}>
      <table>
        <caption className="visually-hidden">{caption}</caption>
        <thead>
          <tr>
            {table.columns.map(({ head, numeric }) => (
              <th key={head} scope="col" data-numeric={numeric}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map((row, place) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows may be alike and never move
            <tr key={place}>
              {row.map((cell, index) => {
                const { head, numeric } = table.columns[index]!;
                return index === 0 ? (
                  <th key={head} scope="row">
                    {cell}
                  </th>
                ) : (
                  <td key={head} data-numeric={numeric}>
                    {cell}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
