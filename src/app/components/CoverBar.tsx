import { app } from '../../core/text/app.ts';
import { formatPercent } from '../../core/text/format.ts';
import type { CoverClass } from '../../core/trial/coverClass.ts';
import { inkOn } from '../canvas/colours.ts';
import styles from './CoverBar.module.css';
import { patternImage } from './patternImage.ts';

interface CoverBarProps {
  readonly classes: readonly CoverClass[];
  /** Share of measured ground a class, 0..1, in class order. */
  readonly coverFraction: readonly number[];
  /** Thin and without letters, under a thumbnail. @default false */
  readonly thin?: boolean;
}

/** From this share on a part of the bar has room for its letter. */
const ROOM_FOR_LETTER = 0.04;

/** One bar, as long as the measured ground, divided among the classes. */
export function CoverBar({ classes, coverFraction, thin = false }: CoverBarProps) {
  return (
    <div
      className={thin ? `${styles.bar} ${styles.thin}` : styles.bar}
      role="img"
      aria-label={coverSentence(classes, coverFraction)}
    >
      {classes.map((coverClass, index) => {
        const share = coverFraction[index]!;
        if (share === 0) return null;
        const { id, colour, key } = coverClass;
        return (
          <span
            key={id}
            style={{
              flexGrow: share,
              backgroundColor: colour,
              backgroundImage: patternImage(index, colour),
              color: inkOn(colour),
            }}
          >
            {!thin && share >= ROOM_FOR_LETTER && <b style={{ backgroundColor: colour }}>{key}</b>}
          </span>
        );
      })}
    </div>
  );
}

/** "Cover: Ryegrass 77 %, Weedy grass 6.5 %, …" */
export function coverSentence(classes: readonly CoverClass[], coverFraction: readonly number[]): string {
  return app.cover.summary(
    classes.map(({ name }, index) => app.cover.part(name, formatPercent(coverFraction[index]!))),
  );
}
