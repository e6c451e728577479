import { formatCount } from '../../../core/text/format.ts';
import type { CoverClass } from '../../../core/trial/coverClass.ts';
import blocks from '../../components/blocks.module.css';
import { ClassName } from './ClassName.tsx';
import styles from './PointsScreen.module.css';

interface CountsTableProps {
  readonly caption: string;
  readonly rows: string;
  readonly columns: string;
  readonly classes: readonly CoverClass[];
  readonly counts: readonly (readonly number[])[];
}

/** Points by what two said of them, agreement on the diagonal. */
export function CountsTable({ caption, rows, columns, classes, counts }: CountsTableProps) {
  return (
    <div className={blocks.scroller}>
      <table className={blocks.table}>
        <caption>
          <span>{caption}</span>
        </caption>
        <thead>
          <tr>
            <th scope="col">
              {rows} ↓ {columns} →
            </th>
            {classes.map((coverClass, index) => (
              <th key={coverClass.id} scope="col">
                <ClassName coverClass={coverClass} index={index} />
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {classes.map((coverClass, row) => (
            <tr key={coverClass.id}>
              <th scope="row">
                <ClassName coverClass={coverClass} index={row} />
              </th>
              {classes.map(({ id }, column) => (
                <td key={id} className={`${blocks.number} ${row === column ? styles.right : ''}`}>
                  {formatCount(counts[row]![column]!)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
