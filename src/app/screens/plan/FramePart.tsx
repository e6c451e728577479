import { useMemo, useState } from 'react';
import { formatDay } from '../../../core/text/format.ts';
import { planText } from '../../../core/text/plan.ts';
import { framePlacesProblemText } from '../../../core/text/trial.ts';
import { checkRecord } from '../../../core/trial/checkRecord.ts';
import type { FieldProblem } from '../../../core/trial/fieldProblem.ts';
import { framePlacesOf, framePlanSchema } from '../../../core/trial/framePlaces.ts';
import { randomBelow } from '../../../core/trial/repeatableRandom.ts';
import { walkingOrder } from '../../../core/trial/walkingOrder.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { FormField } from '../../components/FormField.tsx';
import { millimetresOf, problemWords } from '../../components/formFields.ts';
import { Notice } from '../../components/Notice.tsx';
import { ratingDatesOf } from '../../session/placePhotos.ts';
import styles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';

const text = planText.frame;

const NUMBERS = ['placesPerPlot', 'frameWidthMm', 'frameLengthMm', 'edgeMm', 'apartMm', 'seed'] as const;
const CHOICES = ['draw', 'measuredFrom', 'markedFrameCorner'] as const;

/** Where the frame goes in each plot, in metres from a named corner. */
export function FramePart() {
  const { plan } = usePlan();
  return (
    <div className={blocks.sections}>
      <section className={`${blocks.section} ${styles.screenOnly}`} aria-label={text.title}>
        <h2>{text.title}</h2>
        {plan.trial.plotSize === null ? <p>{text.needsPlotSize}</p> : <FrameForm />}
      </section>
      {plan.trial.plotSize && plan.framePlan && plan.plots.length > 0 && <Places />}
    </div>
  );
}

function FrameForm() {
  const { plan, edit } = usePlan();
  const before = plan.framePlan;
  const [form, setForm] = useState<Readonly<Record<string, string>>>(() => ({
    placesPerPlot: String(before?.placesPerPlot ?? ''),
    frameWidthMm: String(before?.frameWidthMm ?? ''),
    frameLengthMm: String(before?.frameLengthMm ?? ''),
    edgeMm: String(before?.edgeMm ?? ''),
    apartMm: String(before?.apartMm ?? ''),
    seed: String(before?.seed ?? randomBelow(1_000_000, Math.random)),
    draw: before?.draw ?? 'fixed',
    measuredFrom: before?.measuredFrom ?? 'near-left',
    markedFrameCorner: before?.markedFrameCorner ?? 'near-left',
  }));
  const [problems, setProblems] = useState<readonly FieldProblem[]>([]);
  const save = async () => {
    const numbers = NUMBERS.map((name) => [name, millimetresOf(form[name]!) ?? undefined]);
    const choices = CHOICES.map((name) => [name, form[name]]);
    const checked = checkRecord(framePlanSchema, Object.fromEntries([...numbers, ...choices]));
    if (!checked.ok) return setProblems(checked.problems);
    const result = await edit((now) => ({ ...now, framePlan: checked.value }));
    setProblems(result.ok ? [] : result.problems);
  };
  const field = (name: (typeof NUMBERS)[number] | (typeof CHOICES)[number]) => (
    <FormField
      key={name}
      label={text.labels[name]}
      kind="number"
      {...(name in text.choices && {
        choices: Object.entries(text.choices[name as keyof typeof text.choices]),
      })}
      value={form[name]!}
      onChange={(value) => {
        setForm({ ...form, [name]: value });
        setProblems(problems.filter((problem) => problem.field !== name));
      }}
      problem={problemWords(text.labels[name], problems, name)}
    />
  );
  return (
    <form
      className={styles.form}
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <p className={blocks.hint}>{text.hint}</p>
      <div className={blocks.fields}>{[...NUMBERS, ...CHOICES].map(field)}</div>
      <div className={blocks.row}>
        <Button look="main" type="submit">
          {text.save}
        </Button>
        {before && (
          <Button onClick={() => void edit((now) => ({ ...now, framePlan: null }))}>{text.drop}</Button>
        )}
      </div>
    </form>
  );
}

function Places() {
  const { plan, trial } = usePlan();
  const plotSize = plan.trial.plotSize!;
  const framePlan = plan.framePlan!;
  const dates = ratingDatesOf(plan);
  const [chosen, setChosen] = useState('');
  const date = dates.includes(chosen) ? chosen : (dates[0] ?? '');
  const waits = framePlan.draw === 'each-date' && date === '';
  const rows = useMemo(
    () =>
      waits
        ? []
        : walkingOrder(plan.plots, trial.photoRules.walk).map(({ plot }) => ({
            plot,
            drawn: framePlacesOf(plot, date, plotSize, framePlan),
          })),
    [waits, plan.plots, trial.photoRules.walk, date, plotSize, framePlan],
  );
  const failed = rows.map(({ drawn }) => drawn).find((drawn) => !drawn.ok);
  return (
    <section className={blocks.section} aria-label={text.places}>
      <div className={blocks.row}>
        <h2>{text.places}</h2>
        <Button className={styles.screenOnly} onClick={() => window.print()}>
          {text.print}
        </Button>
      </div>
      <p>{text.measured(text.choices.measuredFrom[framePlan.measuredFrom])}</p>
      {framePlan.draw === 'each-date' && dates.length > 0 && (
        <FormField
          label={text.date}
          value={date}
          onChange={setChosen}
          choices={dates.map((day) => [day, formatDay(day)] as const)}
          narrow
        />
      )}
      {waits && <p>{text.needsDate}</p>}
      {failed && !failed.ok && (
        <Notice kind="trouble">
          <p>{framePlacesProblemText(failed)}</p>
        </Notice>
      )}
      {!failed && rows.length > 0 && (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than the screen is scrolled with the keyboard
        <section className={blocks.scroller} tabIndex={0} aria-label={text.table}>
          <table className={`${blocks.table} ${blocks.full}`}>
            <caption className="visually-hidden">{text.table}</caption>
            <thead>
              <tr>
                <th scope="col">{planText.layout.plot}</th>
                <th scope="col">{text.place}</th>
                <th scope="col">{text.across}</th>
                <th scope="col">{text.along}</th>
              </tr>
            </thead>
            <tbody>
              {rows.flatMap(({ plot, drawn }) =>
                drawn.ok
                  ? drawn.places.map(({ place, acrossM, alongM }) => (
                      <tr key={`${plot} ${place}`}>
                        <th scope="row">{plot}</th>
                        <td>{place}</td>
                        <td>{acrossM.toFixed(2)}</td>
                        <td>{alongM.toFixed(2)}</td>
                      </tr>
                    ))
                  : [],
              )}
            </tbody>
          </table>
        </section>
      )}
    </section>
  );
}
