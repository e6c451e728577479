import { useState } from 'react';
import { formatDay } from '../../../core/text/format.ts';
import { planText } from '../../../core/text/plan.ts';
import { fieldProblemText } from '../../../core/text/trial.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { FormField } from '../../components/FormField.tsx';
import { ratingDatesOf } from '../../session/placePhotos.ts';
import { AuditTable } from './AuditTable.tsx';
import styles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';

const text = planText.records;

/** What went otherwise than planned, what analyses leave out, and every change that was made. */
export function RecordsPart() {
  return (
    <div className={blocks.sections}>
      <Deviations />
      <Exclusions />
      <AuditTable />
    </div>
  );
}

const nextId = (letter: string, taken: readonly { readonly id: string }[]) => {
  let number = taken.length + 1;
  while (taken.some(({ id }) => id === `${letter}${number}`)) number += 1;
  return `${letter}${number}`;
};

function Deviations() {
  const { plan, edit, who } = usePlan();
  const empty = { plot: '', date: '', what: '', effect: '', reason: '' };
  const [form, setForm] = useState(empty);
  const [problems, setProblems] = useState<readonly string[]>([]);
  const set = (name: keyof typeof form) => (value: string) => setForm({ ...form, [name]: value });
  const add = async () => {
    const { plot, date, what, effect, reason } = form;
    const result = await edit((before) => ({
      ...before,
      deviations: [
        ...before.deviations,
        {
          id: nextId('D', before.deviations),
          plot: plot || null,
          date: date || null,
          what: what.trim(),
          effect: effect.trim(),
          reason: reason.trim(),
          by: who,
        },
      ],
    }));
    if (result.ok) setForm(empty);
    setProblems(result.ok ? [] : result.problems.map(fieldProblemText));
  };
  return (
    <section className={blocks.section} aria-label={text.deviations}>
      <h2>{text.deviations}</h2>
      {plan.deviations.length === 0 && <p className={blocks.soft}>{text.noDeviations}</p>}
      <ul className={styles.list}>
        {plan.deviations.map(({ id, plot, date, what, effect, reason, by }) => (
          <li key={id}>
            <div>
              <strong>{text.where(plot, date)}</strong>
              <p>{text.deviation(what, effect, reason)}</p>
              <p className={blocks.soft}>{by}</p>
            </div>
            <Button
              look="quiet"
              aria-label={text.takeBackDeviation(id)}
              onClick={() =>
                void edit((before) => ({
                  ...before,
                  deviations: before.deviations.filter((one) => one.id !== id),
                }))
              }
            >
              {text.takeBack}
            </Button>
          </li>
        ))}
      </ul>
      <form
        className={styles.form}
        onSubmit={(event) => {
          event.preventDefault();
          void add();
        }}
      >
        <div className={blocks.fields}>
          <FormField label={text.plot} value={form.plot} onChange={set('plot')} choices={plotChoices(plan)} />
          <FormField label={text.date} kind="date" value={form.date} onChange={set('date')} />
          <FormField label={text.what} value={form.what} onChange={set('what')} />
          <FormField label={text.effect} value={form.effect} onChange={set('effect')} />
          <FormField label={text.reason} value={form.reason} onChange={set('reason')} />
        </div>
        <Problems problems={problems} />
        <Button
          className={blocks.fit}
          type="submit"
          disabled={[form.what, form.effect, form.reason].some((value) => value.trim() === '')}
        >
          {text.addDeviation}
        </Button>
      </form>
    </section>
  );
}

function Exclusions() {
  const { plan, edit, who } = usePlan();
  const empty = { plot: '', date: '', variable: '', reason: '' };
  const [form, setForm] = useState(empty);
  const [problems, setProblems] = useState<readonly string[]>([]);
  const set = (name: keyof typeof form) => (value: string) => setForm({ ...form, [name]: value });
  const variables = [...plan.trial.classes, ...plan.ratedVariables].map(
    ({ id, name }) => [id, name] as const,
  );
  const names = new Map(variables);
  const add = async () => {
    const { plot, date, variable, reason } = form;
    const result = await edit((before) => ({
      ...before,
      exclusions: [
        ...before.exclusions,
        {
          id: nextId('X', before.exclusions),
          plot,
          ratingDate: date || null,
          variable: variable || null,
          reason: reason.trim(),
          by: who,
        },
      ],
    }));
    if (result.ok) setForm(empty);
    setProblems(result.ok ? [] : result.problems.map(fieldProblemText));
  };
  return (
    <section className={blocks.section} aria-label={text.exclusions}>
      <h2>{text.exclusions}</h2>
      <p className={blocks.hint}>{text.exclusionsHint}</p>
      <ul className={styles.list}>
        {plan.exclusions.map(({ id, plot, ratingDate, variable, reason, by }) => (
          <li key={id}>
            <div>
              <strong>{text.where(plot, ratingDate)}</strong>
              <p>{text.exclusion(variable === null ? null : (names.get(variable) ?? variable), reason)}</p>
              <p className={blocks.soft}>{by}</p>
            </div>
            <Button
              look="quiet"
              aria-label={text.takeBackOf(id)}
              onClick={() =>
                void edit((before) => ({
                  ...before,
                  exclusions: before.exclusions.filter((one) => one.id !== id),
                }))
              }
            >
              {text.takeBack}
            </Button>
          </li>
        ))}
      </ul>
      <form
        className={styles.form}
        onSubmit={(event) => {
          event.preventDefault();
          void add();
        }}
      >
        <div className={blocks.fields}>
          <FormField
            label={text.excludedPlot}
            value={form.plot}
            onChange={set('plot')}
            choices={plotChoices(plan, planText.choose)}
          />
          <FormField
            label={text.excludedDate}
            value={form.date}
            onChange={set('date')}
            choices={[
              ['', text.allDates],
              ...ratingDatesOf(plan).map((date) => [date, formatDay(date, 'short')] as const),
            ]}
          />
          <FormField
            label={text.variable}
            value={form.variable}
            onChange={set('variable')}
            choices={[['', text.allVariables], ...variables]}
          />
          <FormField label={text.excludedReason} value={form.reason} onChange={set('reason')} />
        </div>
        <Problems problems={problems} />
        <Button className={blocks.fit} type="submit" disabled={form.plot === '' || form.reason.trim() === ''}>
          {text.addExclusion}
        </Button>
      </form>
    </section>
  );
}

const plotChoices = (
  plan: ReturnType<typeof usePlan>['plan'],
  none: string = text.wholeTrial,
): (readonly [string, string])[] => [['', none], ...plan.plots.map(({ plot }) => [plot, plot] as const)];

const Problems = ({ problems }: { problems: readonly string[] }) =>
  problems.map((problem) => (
    <p key={problem} className={styles.trouble} role="alert">
      {problem}
    </p>
  ));
