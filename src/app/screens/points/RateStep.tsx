import { useEffect, useRef, useState } from 'react';
import { pointsText } from '../../../core/text/pointsScreen.ts';
import type { CoverClass } from '../../../core/trial/coverClass.ts';
import { Button } from '../../components/Button.tsx';
import { NumberField } from '../../components/NumberField.tsx';
import { shortName } from '../../components/shortName.ts';
import styles from './RateStep.module.css';

const text = pointsText.training;
/** Percentages typed may add to 100 within this, since they are typed in whole numbers or halves. */
const SUM_TOLERANCE = 0.5;

interface RateStepProps {
  readonly picture: ImageBitmap;
  readonly classes: readonly CoverClass[];
  readonly place: readonly [index: number, of: number];
  /** Shares in class order, adding to 1. */
  readonly onRated: (shares: readonly number[]) => void;
  readonly onLeave: () => void;
}

/** The whole picture, and a number for each class, before any point is called. */
export function RateStep({ picture, classes, place, onRated, onLeave }: RateStepProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [percents, setPercents] = useState<readonly (number | null)[]>(classes.map(() => null));
  useEffect(() => {
    canvas.current!.getContext('2d')!.drawImage(picture, 0, 0);
  }, [picture]);
  const sum = percents.reduce<number>((total, percent) => total + (percent ?? 0), 0);
  const isWhole = percents.every((percent) => percent !== null) && Math.abs(sum - 100) <= SUM_TOLERANCE;
  return (
    <form
      className={styles.step}
      onSubmit={(event) => {
        event.preventDefault();
        if (isWhole) onRated(percents.map((percent) => percent! / sum));
      }}
    >
      <canvas
        ref={canvas}
        width={picture.width}
        height={picture.height}
        role="img"
        aria-label={text.picture(place[0])}
      />
      <div className={styles.side}>
        <h2>{text.rate(...place)}</h2>
        <p className={styles.hint}>{text.rateHint}</p>
        {classes.map(({ id, name }, index) => (
          <NumberField
            key={id}
            label={shortName(name)}
            unit="%"
            value={percents[index]!}
            least={0}
            most={100}
            optional
            onChange={(value) =>
              setPercents((before) => before.map((one, other) => (other === index ? value : one)))
            }
          />
        ))}
        <p role="status">{text.sum(sum)}</p>
        <div className={styles.ways}>
          <Button look="main" large type="submit" disabled={!isWhole}>
            {text.toPoints}
          </Button>
          <Button large onClick={onLeave}>
            {text.leave}
          </Button>
        </div>
        <p className={styles.hint}>{text.leaveHint}</p>
      </div>
    </form>
  );
}
