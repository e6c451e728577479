import { useEffect, useRef } from 'react';
import { fieldText } from '../../../core/text/field.ts';
import { Button } from '../../components/Button.tsx';
import { Dialog } from '../../components/Dialog.tsx';
import type { FieldDayState, PhotographedStop } from '../../session/fieldDay.ts';
import styles from './FieldScreen.module.css';

const text = fieldText.list;

interface PlotListProps {
  readonly state: FieldDayState;
  readonly onClose: () => void;
  readonly onGo: (at: number) => void;
  readonly onEnd: () => void;
}

/** Every stop in walking order, to go to one out of turn. */
export function PlotList({ state, onClose, onGo, onEnd }: PlotListProps) {
  const { stops, at, placesPerPlot } = state;
  const here = useRef<HTMLLIElement>(null);
  useEffect(() => {
    here.current?.scrollIntoView({ block: 'center' });
  }, []);
  return (
    <Dialog title={text.title} onClose={onClose}>
      <ol className={styles.places}>
        {stops.map((stop, index) => {
          const words = [wordsOf(stop), index === at && text.here].filter(Boolean).join(', ');
          return (
            <li key={`${stop.plot.plot} ${stop.place}`} ref={index === at ? here : undefined}>
              <Button
                className={styles.item}
                aria-current={index === at ? 'step' : undefined}
                onClick={() => onGo(index)}
              >
                {text.item(stop.plot.plot, placesPerPlot === 1 ? null : stop.place, words)}
              </Button>
            </li>
          );
        })}
      </ol>
      <Button onClick={onEnd}>{fieldText.finish}</Button>
    </Dialog>
  );
}

function wordsOf({ photo, verdict, skipped }: PhotographedStop): string {
  if (verdict === 'retake') return text.state.retake;
  if (photo !== null) return text.state.taken;
  return skipped === null ? text.state.open : text.state.skipped;
}
