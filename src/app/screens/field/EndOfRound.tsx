import { Link } from 'wouter';
import { fieldText } from '../../../core/text/field.ts';
import { isOpenStop } from '../../../core/trial/fieldRound.ts';
import { Button } from '../../components/Button.tsx';
import { OnlyHere } from '../../components/OnlyHere.tsx';
import { type FieldDayState, type PhotographedStop, photographed } from '../../session/fieldDay.ts';
import styles from './FieldScreen.module.css';

const text = fieldText.end;

interface EndOfRoundProps {
  readonly state: FieldDayState;
  readonly ratingDate: string;
  readonly onGo: (at: number) => void;
}

/** What the round brought, what is still to do, and the way to save it. */
export function EndOfRound({ state, ratingDate, onGo }: EndOfRoundProps) {
  const { stops, placesPerPlot } = state;
  const all = stops.map((stop, at) => ({ stop, at }));
  const open = all.filter(({ stop }) => isOpenStop(stop));
  const retake = all.filter(({ stop }) => stop.verdict === 'retake');
  const skipped = all.filter(({ stop }) => stop.photo === null && stop.skipped !== null);
  const done = photographed(stops);
  const placeOf = ({ place }: PhotographedStop) => (placesPerPlot === 1 ? null : place);
  return (
    <div className={styles.page}>
      <h1>{text.title}</h1>
      <p className={styles.lead}>
        {done === stops.length ? text.all(done) : text.done(done, stops.length)}
        {open.length > 0 && ` ${text.open(open.length)}`}
      </p>
      {open[0] && (
        <Button look="main" large onClick={() => onGo(open[0]!.at)}>
          {text.goOpen(open[0].stop.plot.plot)}
        </Button>
      )}
      {retake.length > 0 && (
        <section className={styles.part}>
          <h2>{text.retake}</h2>
          <div className={styles.places}>
            {retake.map(({ stop, at }) => (
              <Button key={at} onClick={() => onGo(at)}>
                {fieldText.late(stop.plot.plot, placeOf(stop))}
              </Button>
            ))}
          </div>
        </section>
      )}
      {skipped.length > 0 && (
        <section className={styles.part}>
          <h2>{text.skipped}</h2>
          <ul className={styles.places}>
            {skipped.map(({ stop, at }) => (
              <li key={at}>
                <Button onClick={() => onGo(at)}>
                  {fieldText.list.item(stop.plot.plot, placeOf(stop), stop.skipped!)}
                </Button>
              </li>
            ))}
          </ul>
        </section>
      )}
      <OnlyHere ratingDate={ratingDate} />
      <div className={styles.foot}>
        <Link href="/photos" className={`${styles.wide} ${styles.fill}`}>
          {text.leave}
        </Link>
      </div>
    </div>
  );
}
