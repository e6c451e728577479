import { Link } from 'wouter';
import { fieldText } from '../../../core/text/field.ts';
import { plotKey } from '../../../core/trial/plot.ts';
import { Notice } from '../../components/Notice.tsx';
import { today } from '../../components/today.ts';
import type { FieldDayState } from '../../session/fieldDay.ts';
import { usePhotos } from '../../session/useSession.tsx';
import styles from './FieldScreen.module.css';

const text = fieldText.days;

/** The rating dates of the trial, with how far each has come. */
export function ChooseDay({ state, asked }: { state: FieldDayState; asked: string }) {
  const photos = usePhotos();
  const { trial, ratingDates, begun, placesPerPlot } = state;
  const missing = !trial
    ? text.noTrial
    : trial.plan.plots.length === 0
      ? text.noPlots
      : ratingDates.length === 0
        ? text.noDates
        : null;
  if (missing) {
    return (
      <div className={styles.page}>
        <h1>{fieldText.title}</h1>
        <p>{missing}</p>
        <Link href="/plan" className={styles.wide}>
          {text.toPlan}
        </Link>
      </div>
    );
  }
  const plots = new Set(trial!.plan.plots.map(({ plot }) => plotKey(plot)));
  const doneOn = (date: string) =>
    new Set(
      photos.flatMap(({ plot, place, ratingDate }) =>
        ratingDate === date && plot !== null && plots.has(plotKey(plot))
          ? [`${plotKey(plot)} ${place ?? 1}`]
          : [],
      ),
    ).size;
  const now = today();
  return (
    <div className={styles.page}>
      <h1>{text.title}</h1>
      {asked !== '' && <Notice kind="trouble">{text.unknown(asked)}</Notice>}
      <p className={styles.soft}>{text.intro}</p>
      <ul className={styles.choices}>
        {ratingDates.map((date) => {
          const remarks = [
            date === now && text.today,
            begun.some((day) => day.ratingDate === date && day.plot !== '') && text.begun,
          ].filter(Boolean);
          return (
            <li key={date}>
              <Link href={`/field/${date}`} className={styles.choice}>
                <strong>{text.day(date)}</strong>
                <span>
                  {[text.done(doneOn(date), plots.size * placesPerPlot, 0), ...remarks].join(' · ')}
                </span>
              </Link>
            </li>
          );
        })}
      </ul>
    </div>
  );
}
