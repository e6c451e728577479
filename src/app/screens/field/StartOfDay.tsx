import { useState } from 'react';
import { useLocation } from 'wouter';
import { fieldText } from '../../../core/text/field.ts';
import { lastApplicationText } from '../../../core/text/trial.ts';
import { resolveTimings } from '../../../core/trial/resolveTimings.ts';
import { Button } from '../../components/Button.tsx';
import { ConditionsDialog } from '../../components/ConditionsDialog.tsx';
import { FormField } from '../../components/FormField.tsx';
import { today } from '../../components/today.ts';
import type { FieldDayState } from '../../session/fieldDay.ts';
import type { EditPlan } from '../../session/trialState.ts';
import { useSession } from '../../session/useSession.tsx';
import styles from './FieldScreen.module.css';
import type { ReEntryNow } from './reEntryNow.ts';

const text = fieldText.start;

interface StartOfDayProps {
  readonly state: FieldDayState;
  readonly ratingDate: string;
  readonly reEntry: ReEntryNow | null;
  readonly who: string;
  readonly onWho: (who: string) => void;
  /** The plot where the round begins. */
  readonly first: string;
  readonly onGo: () => void;
}

/** What is settled once before the first plot: who, the conditions, the last application. */
export function StartOfDay({ state, ratingDate, reEntry, who, onWho, first, onGo }: StartOfDayProps) {
  const [name, setName] = useState(who);
  const [asked, setAsked] = useState<'name' | 'conditions' | null>(null);
  const [, navigate] = useLocation();
  const edit = useSignedEdit(name.trim());
  const { plan } = state.trial!;
  const rating = ratingOf(plan, ratingDate);
  const now = today();
  const waits = rating?.doneOn === null && ratingDate !== now && state.stops.every(({ photo }) => !photo);
  const withName = (go: () => void) => () => {
    if (name.trim() === '') return setAsked('name');
    onWho(name.trim());
    go();
  };
  const rateToday = async () => {
    const { id } = rating!;
    const ratings = (all: typeof plan.ratings) =>
      all.map((one) => (one.id === id ? { ...one, doneOn: now } : one));
    const result = await edit((before) => ({ ...before, ratings: ratings(before.ratings) }));
    if (result.ok) navigate(`/field/${now}`, { replace: true });
  };
  return (
    <div className={styles.page}>
      <h1>{text.title(ratingDate)}</h1>
      {waits && (
        <section className={styles.part}>
          <p>{text.otherDay(ratingDate, now)}</p>
          <Button onClick={withName(() => void rateToday())}>{text.rateToday}</Button>
        </section>
      )}
      <section className={styles.part}>
        <h2>{fieldText.reEntry.title}</h2>
        <p className={reEntry && reEntry.at !== 'passed' ? styles.warning : undefined}>
          {lastApplicationText(reEntry?.last ?? null)}
        </p>
      </section>
      <section className={styles.part}>
        <FormField
          label={text.name}
          value={name}
          onChange={(value) => {
            setName(value);
            setAsked(null);
          }}
          hint={text.nameHint}
          problem={asked === 'name' ? text.nameAsked : null}
          required
        />
      </section>
      {rating && (
        <section className={styles.part}>
          <h2>{text.conditions}</h2>
          <p>{rating.conditions ? text.conditionsThere : text.conditionsMissing}</p>
          <Button onClick={withName(() => setAsked('conditions'))}>
            {rating.conditions ? text.conditionsChange : text.conditionsNote}
          </Button>
        </section>
      )}
      <div className={styles.foot}>
        <Button look="main" large className={styles.fill} onClick={withName(onGo)}>
          {text.go(first)}
        </Button>
      </div>
      {asked === 'conditions' && rating && (
        <ConditionsDialog rating={rating} edit={edit} onClose={() => setAsked(null)} />
      )}
    </div>
  );
}

/** Changes of the plan made in the field, signed. */
export function useSignedEdit(who: string): EditPlan {
  const session = useSession();
  return async (change) => (await session.openTrial()).edit(change, { who, why: text.why });
}

/** The rating of a date. */
export function ratingOf(plan: NonNullable<FieldDayState['trial']>['plan'], ratingDate: string) {
  const { ratings } = resolveTimings(plan);
  return plan.ratings.find(({ id }) => {
    const day = ratings.get(id);
    return day && 'day' in day && day.day === ratingDate;
  });
}
