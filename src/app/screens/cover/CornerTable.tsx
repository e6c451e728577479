import type { Quadrilateral } from '../../../core/geometry/points.ts';
import { app } from '../../../core/text/app.ts';
import { NumberField } from '../../components/NumberField.tsx';
import styles from './FramePanel.module.css';

/** Far beyond any photo: a corner outside the photo is said to be so, not refused while it is typed. */
const FARTHEST_PX = 100_000;

interface CornerTableProps {
  readonly corners: Quadrilateral<'photo'>;
  readonly onChange: (corner: number, axis: 0 | 1, value: number) => void;
}

/** The four corners as numbers that can be typed. */
export function CornerTable({ corners, onChange }: CornerTableProps) {
  return (
    <table className={styles.corners}>
      <thead>
        <tr>
          <th scope="col">{app.frame.corner}</th>
          <th scope="col">{app.frame.across}</th>
          <th scope="col">{app.frame.down}</th>
        </tr>
      </thead>
      <tbody>
        {corners.map((point, corner) => (
          <tr key={app.frame.corners[corner]}>
            <th scope="row">{app.frame.corners[corner]}</th>
            {([0, 1] as const).map((axis) => (
              <td key={axis}>
                <NumberField
                  label={app.frame.cornerField(
                    app.frame.corners[corner]!,
                    axis === 0 ? app.frame.across : app.frame.down,
                  )}
                  hideLabel
                  unit={app.frame.pixels}
                  value={point[axis]}
                  least={-FARTHEST_PX}
                  most={FARTHEST_PX}
                  onChange={(value) => onChange(corner, axis, value!)}
                />
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
