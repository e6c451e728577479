import { useMemo, useRef, useState } from 'react';
import { formatDay } from '../../../core/text/format.ts';
import { planText } from '../../../core/text/plan.ts';
import { fieldProblemText, lastApplicationText, scoreProblemText } from '../../../core/text/trial.ts';
import { checkRecord } from '../../../core/trial/checkRecord.ts';
import {
  COMMON_RATED_VARIABLES,
  type RatedVariable,
  ratedVariableSchema,
  scoreProblem,
  scoreSheet,
} from '../../../core/trial/rating.ts';
import { lastApplication } from '../../../core/trial/reEntry.ts';
import { walkingOrder } from '../../../core/trial/walkingOrder.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { FormField } from '../../components/FormField.tsx';
import { numberOf } from '../../components/formFields.ts';
import { today } from '../../components/today.ts';
import { ratingDatesOf } from '../../session/placePhotos.ts';
import styles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';
import sheet from './ScoresPart.module.css';

const text = planText.scores;

/** Rated variables, and their scores entered plot by plot in walking order. */
export function ScoresPart() {
  const { plan } = usePlan();
  const dates = ratingDatesOf(plan);
  return (
    <div className={blocks.sections}>
      {plan.ratedVariables.length > 0 && plan.plots.length > 0 && dates.length > 0 && (
        <ScoreEntry dates={dates} />
      )}
      {(plan.plots.length === 0 || dates.length === 0) && <p>{text.needs}</p>}
      <Variables />
    </div>
  );
}

function ScoreEntry({ dates }: { dates: readonly string[] }) {
  const { plan, trial, who, session } = usePlan();
  const day = today();
  const [variableId, setVariable] = useState(plan.ratedVariables[0]!.id);
  const [date, setDate] = useState(dates.find((one) => one >= day) ?? dates.at(-1)!);
  const [rater, setRater] = useState(who);
  const [position, setPosition] = useState(0);
  const variable = plan.ratedVariables.find(({ id }) => id === variableId) ?? plan.ratedVariables[0]!;
  const lines = useMemo(
    () => scoreSheet(walkingOrder(plan.plots, trial.photoRules.walk)),
    [plan.plots, trial.photoRules.walk],
  );
  const at = Math.min(position, lines.length - 1);
  const line = lines[at]!;
  const own = trial.scores.filter(
    (score) =>
      score.variable === variable.id && score.ratingDate === date && (score.rater ?? '') === rater.trim(),
  );
  const last = lastApplication(
    plan,
    plan.treatments.map(({ number }) => number),
    day,
  );
  const keep = async (value: number | null) => {
    const { plot } = line;
    const score = { variable: variable.id, plot, ratingDate: date, rater: rater.trim(), value };
    await session.score(score, planText.signature.scored);
    setPosition(Math.min(at + 1, lines.length - 1));
  };
  return (
    <section className={blocks.section} aria-label={text.enter}>
      <h2>{text.enter}</h2>
      <p className={blocks.hint}>{lastApplicationText(last)}</p>
      <div className={blocks.fields}>
        <FormField
          label={text.variable}
          value={variable.id}
          onChange={(id) => {
            setVariable(id);
            setPosition(0);
          }}
          choices={plan.ratedVariables.map(({ id, name, unit }) => [id, `${name} (${unit})`] as const)}
        />
        <FormField
          label={text.date}
          value={date}
          onChange={(one) => {
            setDate(one);
            setPosition(0);
          }}
          choices={dates.map((one) => [one, formatDay(one, 'short')] as const)}
        />
        <FormField label={text.rater} value={rater} onChange={setRater} />
      </div>
      <OnePlot
        key={`${variable.id} ${date} ${line.plot}`}
        plot={line.plot}
        position={line.position}
        of={lines.length}
        variable={variable}
        entered={own.find(({ plot }) => plot === line.plot)?.value}
        isEntered={own.some(({ plot }) => plot === line.plot)}
        onKeep={keep}
        onStep={(step) => setPosition(Math.max(0, Math.min(lines.length - 1, at + step)))}
      />
      <p role="status">{text.done(own.length, lines.length)}</p>
    </section>
  );
}

function OnePlot(props: {
  readonly plot: string;
  readonly position: number;
  readonly of: number;
  readonly variable: RatedVariable;
  readonly entered: number | null | undefined;
  readonly isEntered: boolean;
  readonly onKeep: (value: number | null) => Promise<void>;
  readonly onStep: (step: number) => void;
}) {
  const { plot, position, of, variable, entered, isEntered, onKeep, onStep } = props;
  const [typed, setTyped] = useState(entered == null ? '' : String(entered));
  const [problem, setProblem] = useState<string | null>(null);
  const form = useRef<HTMLFormElement>(null);
  const keep = async () => {
    const value = numberOf(typed);
    const wrong = scoreProblem(typeof value === 'number' ? value : Number.NaN, variable);
    if (wrong) return setProblem(scoreProblemText(wrong));
    await onKeep(value as number);
    // the next plot's field, so that scores can be typed one after the other
    requestAnimationFrame(() => document.querySelector<HTMLElement>(`.${sheet.plot} input`)?.focus());
  };
  return (
    <form
      ref={form}
      className={sheet.plot}
      onSubmit={(event) => {
        event.preventDefault();
        void keep();
      }}
    >
      <p className={blocks.soft}>{text.position(position, of)}</p>
      <strong>{text.plot(plot)}</strong>
      <FormField
        label={text.score(variable.name, plot)}
        kind="number"
        value={typed}
        onChange={(value) => {
          setTyped(value);
          setProblem(null);
        }}
        hint={text.bounds(variable.least, variable.most, variable.unit)}
        problem={problem}
      />
      {isEntered && entered === null && <p className={blocks.soft}>{text.wasNotRateable}</p>}
      <div className={blocks.row}>
        <Button disabled={position === 1} onClick={() => onStep(-1)}>
          {text.previous}
        </Button>
        <Button disabled={position === of} onClick={() => onStep(1)}>
          {text.next}
        </Button>
        <Button onClick={() => void onKeep(null)}>{text.notRateable}</Button>
        <Button look="main" type="submit" disabled={typed.trim() === ''}>
          {text.keep}
        </Button>
      </div>
    </form>
  );
}

/** What is scored beside photo cover. */
function Variables() {
  const { plan, trial, edit } = usePlan();
  const empty = { name: '', unit: '', least: '', most: '', step: '', better: 'neither' };
  const [form, setForm] = useState(empty);
  const [problems, setProblems] = useState<readonly string[]>([]);
  const add = async (variable: RatedVariable) => {
    const result = await edit((before) => ({
      ...before,
      ratedVariables: [...before.ratedVariables, { ...variable }],
    }));
    if (result.ok) setForm(empty);
    setProblems(result.ok ? [] : result.problems.map(fieldProblemText));
  };
  const addOwn = () => {
    const id = form.name
      .trim()
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '');
    const checked = checkRecord(ratedVariableSchema, {
      id,
      name: form.name.trim(),
      unit: form.unit.trim(),
      least: numberOf(form.least) ?? undefined,
      most: numberOf(form.most) ?? undefined,
      step: numberOf(form.step),
      better: form.better,
    });
    if (!checked.ok) return setProblems(checked.problems.map(fieldProblemText));
    void add(checked.value);
  };
  const offered = COMMON_RATED_VARIABLES.filter(
    ({ id }) => !plan.ratedVariables.some((one) => one.id === id),
  );
  const set = (name: keyof typeof form) => (value: string) => setForm({ ...form, [name]: value });
  return (
    <section className={blocks.section} aria-label={text.variables}>
      <h2>{text.variables}</h2>
      <ul className={styles.list}>
        {plan.ratedVariables.map(({ id, name, unit, least, most }) => (
          <li key={id}>
            <span>
              <strong>{name}</strong> <span className={blocks.soft}>{text.bounds(least, most, unit)}</span>
            </span>
            {!trial.scores.some(({ variable }) => variable === id) && (
              <Button
                look="quiet"
                aria-label={text.removeVariable(name)}
                onClick={() =>
                  void edit((before) => ({
                    ...before,
                    ratedVariables: before.ratedVariables.filter((one) => one.id !== id),
                  }))
                }
              >
                {planText.remove}
              </Button>
            )}
          </li>
        ))}
      </ul>
      {offered.length > 0 && (
        <div className={blocks.row}>
          {offered.map((variable) => (
            <Button key={variable.id} onClick={() => void add(variable)}>
              {text.addCommon(variable.name)}
            </Button>
          ))}
        </div>
      )}
      <form
        className={styles.form}
        onSubmit={(event) => {
          event.preventDefault();
          addOwn();
        }}
      >
        <div className={blocks.fields}>
          <FormField label={text.name} value={form.name} onChange={set('name')} />
          <FormField label={text.unit} value={form.unit} onChange={set('unit')} />
          <FormField label={text.least} kind="number" value={form.least} onChange={set('least')} />
          <FormField label={text.most} kind="number" value={form.most} onChange={set('most')} />
          <FormField
            label={text.step}
            kind="number"
            value={form.step}
            onChange={set('step')}
            hint={text.stepHint}
          />
          <FormField
            label={text.better}
            value={form.better}
            onChange={set('better')}
            choices={Object.entries(text.betters)}
          />
        </div>
        {problems.map((problem) => (
          <p key={problem} className={styles.trouble} role="alert">
            {problem}
          </p>
        ))}
        <Button className={blocks.fit} type="submit" disabled={form.name.trim() === ''}>
          {text.addOwn}
        </Button>
      </form>
    </section>
  );
}
