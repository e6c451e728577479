import type { ReactNode } from 'react';
import { formatPercent } from '../../../core/text/format.ts';
import styles from './ClassChoice.module.css';

interface ClassChoiceProps {
  /** Name of the group of radio buttons. */
  readonly group: string;
  readonly checked: boolean;
  readonly onChoose: () => void;
  /** What stands for the class on the photo. */
  readonly sign: ReactNode;
  readonly name: string;
  readonly detail?: ReactNode;
  /** Its cover as a share; undefined where it is not known yet, left out where there is none. */
  readonly coverFraction?: number | undefined;
  /** Whether the cover is of settings that have changed since. @default false */
  readonly behind?: boolean;
}

/** A class among those a stroke can give, with its cover. */
export function ClassChoice(props: ClassChoiceProps) {
  const { group, checked, onChoose, sign, name, detail, coverFraction, behind = false } = props;
  return (
    <label className={styles.class}>
      <input type="radio" name={group} checked={checked} onChange={onChoose} />
      {sign}
      <span className={styles.name}>
        {name}
        {detail && <small>{detail}</small>}
      </span>
      {'coverFraction' in props && (
        <span className={behind ? `${styles.share} ${styles.behind}` : styles.share}>
          {coverFraction === undefined ? (
            '–'
          ) : (
            <>
              {formatPercent(coverFraction)}
              <small> %</small>
            </>
          )}
        </span>
      )}
    </label>
  );
}
