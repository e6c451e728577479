import { useMemo, useState } from 'react';
import { writeTrialCalendarFile } from '../../../core/exchange/calendarFileTrial.ts';
import { parseTiming, writeTiming } from '../../../core/exchange/trialTablesTiming.ts';
import { readWeatherTable } from '../../../core/exchange/weatherTable.ts';
import { formatDay } from '../../../core/text/format.ts';
import { planText } from '../../../core/text/plan.ts';
import {
  APPLICATION_CAUTION,
  calendarStateText,
  fieldFaultText,
  listed,
  tableProblemText,
  temperatureVerdictText,
  waitingForText,
} from '../../../core/text/trial.ts';
import type { Timing } from '../../../core/trial/timing.ts';
import { type CalendarEntry, trialCalendar } from '../../../core/trial/trialCalendar.ts';
import type { TrialPlan } from '../../../core/trial/trialPlan.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { ConditionsDialog } from '../../components/ConditionsDialog.tsx';
import { FormField } from '../../components/FormField.tsx';
import { Notice } from '../../components/Notice.tsx';
import { saveBlob } from '../../components/saveBlob.ts';
import { today } from '../../components/today.ts';
import { PlanField } from './PlanField.tsx';
import styles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';
import { TablesPanel } from './TablesPanel.tsx';
import { useFilePicker } from './useFilePicker.tsx';

const text = planText.calendar;

/** What is due, overdue or in its window, applications and ratings together; rating dates; weather. */
export function CalendarPart() {
  const { plan, trial } = usePlan();
  const entries = useMemo(() => trialCalendar(plan, today(), trial.weather), [plan, trial.weather]);
  return (
    <div className={blocks.sections}>
      <p className={blocks.hint}>{APPLICATION_CAUTION}</p>
      {entries.length === 0 ? (
        <p>{text.empty}</p>
      ) : (
        <ol className={styles.list} aria-label={text.entries}>
          {entries.map((entry) => (
            <Entry key={`${entry.kind} ${entry.id}`} entry={entry} plan={plan} />
          ))}
        </ol>
      )}
      <Button
        className={blocks.fit}
        disabled={entries.every(({ day }) => day === null)}
        onClick={() =>
          saveBlob(
            new Blob([writeTrialCalendarFile(plan, new Date().toISOString())], { type: 'text/calendar' }),
            `${plan.trial.code}-calendar.ics`,
          )
        }
      >
        {text.save}
      </Button>
      <RatingDates />
      <Weather />
    </div>
  );
}

function Entry({ entry, plan }: { entry: CalendarEntry; plan: TrialPlan }) {
  const { kind, id, day, firstDay, lastDay, state, inDays, waitingFor, temperature } = entry;
  const application = kind === 'application' ? plan.applications.find((one) => one.id === id) : undefined;
  const open = state !== 'done' && state !== 'left-out';
  return (
    <li data-state={state}>
      <div>
        <strong>
          {day === null
            ? text.noDay
            : open
              ? planText.applications.untilDay(day, inDays!)
              : formatDay(day, 'short')}
        </strong>
        <p>
          {application
            ? text.application(id, application.description, listed(application.treatments))
            : text.rating(id)}
        </p>
        {open && firstDay !== null && firstDay !== lastDay && (
          <p className={blocks.soft}>{text.window(firstDay, lastDay!)}</p>
        )}
        {waitingFor && <p className={blocks.soft}>{waitingForText(waitingFor)}</p>}
        {temperature && <p className={blocks.soft}>{temperatureVerdictText(temperature)}</p>}
      </div>
      <span className={state === 'overdue' ? styles.overdue : styles.state}>{calendarStateText[state]}</span>
    </li>
  );
}

/** The days on which all plots are photographed or scored. */
function RatingDates() {
  const { plan, edit } = usePlan();
  const [written, setWritten] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const [conditionsOf, setConditionsOf] = useState<string | null>(null);
  const shown = plan.ratings.find(({ id }) => id === conditionsOf);
  const add = async () => {
    const timing = parseTiming(written);
    if (!timing) return setProblem(`${text.timing} ${fieldFaultText({ code: 'not-a-timing' }, written)}`);
    const taken = plan.ratings.map(({ id }) => id);
    let number = taken.length + 1;
    while (taken.includes(`R${number}`)) number += 1;
    const rating = {
      id: `R${number}`,
      timing,
      windowDays: { before: 0, after: 0 },
      doneOn: null,
      conditions: null,
    };
    const result = await edit((before) => ({ ...before, ratings: [...before.ratings, rating] }));
    if (!result.ok) return;
    setWritten('');
    setProblem(null);
  };
  return (
    <section className={blocks.section} aria-label={text.ratings}>
      <h2>{text.ratings}</h2>
      {plan.ratings.length > 0 && (
        <div className={blocks.scroller}>
          <table className={`${blocks.table} ${blocks.full}`}>
            <caption className="visually-hidden">{text.ratings}</caption>
            <thead>
              <tr>
                <th scope="col">{text.ratingId}</th>
                <th scope="col">{text.timing}</th>
                <th scope="col">{planText.applications.windowBefore}</th>
                <th scope="col">{planText.applications.windowAfter}</th>
                <th scope="col">{planText.applications.doneOn}</th>
                <td />
              </tr>
            </thead>
            <tbody>
              {plan.ratings.map(({ id, timing }) => {
                const at = ['ratings', { by: 'id', is: id }] as const;
                return (
                  <tr key={id}>
                    <th scope="row">{id}</th>
                    <td className={blocks.wide}>
                      <RatingTiming id={id} timing={timing} />
                    </td>
                    <td>
                      <PlanField
                        label={text.ofRating(planText.applications.windowBefore, id)}
                        kind="number"
                        path={[...at, 'windowDays', 'before']}
                        hideLabel
                      />
                    </td>
                    <td>
                      <PlanField
                        label={text.ofRating(planText.applications.windowAfter, id)}
                        kind="number"
                        path={[...at, 'windowDays', 'after']}
                        hideLabel
                      />
                    </td>
                    <td>
                      <PlanField
                        label={text.ofRating(planText.applications.doneOn, id)}
                        kind="date"
                        path={[...at, 'doneOn']}
                        hideLabel
                      />
                    </td>
                    <td>
                      <Button
                        look="quiet"
                        aria-label={planText.conditions.openOf(id)}
                        onClick={() => setConditionsOf(id)}
                      >
                        {planText.conditions.open}
                      </Button>
                      <Button
                        look="quiet"
                        aria-label={text.removeRating(id)}
                        onClick={() =>
                          void edit((before) => ({
                            ...before,
                            ratings: before.ratings.filter((one) => one.id !== id),
                          }))
                        }
                      >
                        {planText.remove}
                      </Button>
                    </td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </div>
      )}
      <form
        className={styles.form}
        onSubmit={(event) => {
          event.preventDefault();
          void add();
        }}
      >
        <FormField
          label={text.newRating}
          value={written}
          onChange={setWritten}
          hint={text.timingHint}
          problem={problem}
        />
        <Button type="submit" className={blocks.fit} disabled={written.trim() === ''}>
          {text.addRating}
        </Button>
      </form>
      <TablesPanel table="ratings" />
      {shown && <ConditionsDialog rating={shown} edit={edit} onClose={() => setConditionsOf(null)} />}
    </section>
  );
}

/** When a rating is planned, in words that a table has too. */
function RatingTiming({ id, timing }: { id: string; timing: Timing }) {
  const { edit } = usePlan();
  const [draft, setDraft] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const forget = () => {
    setDraft(null);
    setProblem(null);
  };
  const keep = async () => {
    if (draft === null) return;
    const read = parseTiming(draft);
    if (!read) return setProblem(`${text.timing} ${fieldFaultText({ code: 'not-a-timing' }, draft)}`);
    const result = await edit((before) => ({
      ...before,
      ratings: before.ratings.map((rating) => (rating.id === id ? { ...rating, timing: read } : rating)),
    }));
    if (result.ok) forget();
  };
  return (
    <FormField
      label={text.ofRating(text.timing, id)}
      value={draft ?? writeTiming(timing)}
      onChange={setDraft}
      onDone={() => void keep()}
      onUndo={forget}
      problem={problem}
      hideLabel
    />
  );
}

function Weather() {
  const { session, trial, who } = usePlan();
  const [problems, setProblems] = useState<readonly string[]>([]);
  const [picker, choose] = useFilePicker(text.readWeather, '.csv,text/csv,text/plain', async (file) => {
    const read = readWeatherTable(await file.text());
    setProblems(read.ok ? [] : read.problems.map(tableProblemText));
    if (read.ok) await session.setWeather(read.value, { who, why: planText.signature.weather });
  });
  const { weather } = trial;
  return (
    <section className={blocks.section} aria-label={text.weather}>
      <h2>{text.weather}</h2>
      <p>
        {weather.length === 0
          ? text.noWeather
          : text.weatherDays(weather.length, weather[0]!.day, weather.at(-1)!.day)}
      </p>
      <Button className={blocks.fit} onClick={choose}>
        {text.readWeather}
      </Button>
      {picker}
      {problems.length > 0 && (
        <Notice kind="trouble">
          <ul>
            {problems.slice(0, MOST_SHOWN).map((problem) => (
              <li key={problem}>{problem}</li>
            ))}
          </ul>
        </Notice>
      )}
    </section>
  );
}

const MOST_SHOWN = 20;
