import type { CoverClass } from '../../../core/trial/coverClass.ts';
import { ClassSwatch } from '../../components/ClassSwatch.tsx';
import { shortName } from '../../components/shortName.ts';
import styles from './PointsScreen.module.css';

/** A class as tables name it. */
export function ClassName({
  coverClass,
  index,
}: {
  readonly coverClass: CoverClass;
  readonly index: number;
}) {
  return (
    <span className={styles.klass}>
      <ClassSwatch coverClass={coverClass} index={index} small />
      {shortName(coverClass.name)}
    </span>
  );
}
