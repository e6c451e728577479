import type { CoverClass } from '../../core/trial/coverClass.ts';
import { inkOn } from '../canvas/colours.ts';
import styles from './ClassSwatch.module.css';
import { patternImage } from './patternImage.ts';

interface ClassSwatchProps {
  readonly coverClass: CoverClass;
  /** Place of the class in its trial, from 0: it decides the pattern. */
  readonly index: number;
  readonly small?: boolean;
  /** The class is not shown: its frame and letter only. @default false */
  readonly hollow?: boolean;
}

/** Colour, pattern and letter of a class together, since colour alone does not reach everybody. */
export function ClassSwatch({ coverClass, index, small = false, hollow = false }: ClassSwatchProps) {
  const { colour, key } = coverClass;
  const names = [styles.swatch, small && styles.small, hollow && styles.hollow].filter(Boolean).join(' ');
  const filled = {
    backgroundColor: colour,
    backgroundImage: patternImage(index, colour),
    color: inkOn(colour),
  };
  return (
    <span className={names} style={hollow ? undefined : filled} aria-hidden="true">
      <b style={hollow ? undefined : { backgroundColor: colour }}>{key}</b>
    </span>
  );
}
