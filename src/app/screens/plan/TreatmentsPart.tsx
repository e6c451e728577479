import { useMemo, useState } from 'react';
import { planText } from '../../../core/text/plan.ts';
import {
  APPLICATION_CAUTION,
  formatAmount,
  planProblemText,
  siQuantityText,
  treatmentSummaryNotes,
} from '../../../core/text/trial.ts';
import { planProblems } from '../../../core/trial/planProblems.ts';
import { siQuantity } from '../../../core/trial/quantity.ts';
import { treatmentSummaries } from '../../../core/trial/treatmentSummary.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { FormField } from '../../components/FormField.tsx';
import { numberOf, problemWords } from '../../components/formFields.ts';
import { PlanField } from './PlanField.tsx';
import styles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';
import { TablesPanel } from './TablesPanel.tsx';

const text = planText.treatments;

/** The numbered treatments, which of them is the untreated control, and what each amounts to over the season. */
export function TreatmentsPart() {
  const { plan, edit } = usePlan();
  const summaries = useMemo(() => treatmentSummaries(plan), [plan]);
  const controlsRemark = useMemo(() => {
    const problem = planProblems(plan).find(({ code }) => code === 'several-untreated-controls');
    return problem ? planProblemText(problem) : null;
  }, [plan]);
  const next = Math.max(0, ...plan.treatments.map(({ number }) => number)) + 1;
  const notes = summaries.flatMap((summary) =>
    treatmentSummaryNotes(summary).map((note) => `${summary.treatment}: ${note}`),
  );

  return (
    <div className={blocks.sections}>
      <p className={blocks.hint}>{APPLICATION_CAUTION}</p>
      {plan.treatments.length === 0 ? (
        <p>{text.empty}</p>
      ) : (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than the screen is scrolled with the keyboard
        <section className={blocks.scroller} tabIndex={0} aria-label={text.caption}>
          <table className={`${blocks.table} ${blocks.full}`}>
            <caption className="visually-hidden">{text.caption}</caption>
            <thead>
              <tr>
                <th scope="col">{text.number}</th>
                <th scope="col">{text.name}</th>
                <th scope="col">{text.control}</th>
                <th scope="col">{text.notes}</th>
                <th scope="col">{text.applications}</th>
                <th scope="col">{text.modes}</th>
                <th scope="col">{text.cost}</th>
                <td />
              </tr>
            </thead>
            <tbody>
              {plan.treatments.map(({ number, untreatedControl }, index) => {
                const { applications, applicationsDone, modesOfAction, costPerHectare } = summaries[index]!;
                const at = { by: 'number', is: number };
                return (
                  <tr key={number}>
                    <th scope="row" className={styles.large}>
                      {number}
                    </th>
                    <td className={blocks.widest}>
                      <PlanField label={text.nameOf(number)} path={['treatments', at, 'name']} hideLabel />
                    </td>
                    <td className={blocks.wide}>
                      <PlanField
                        label={text.controlOf(number)}
                        path={['treatments', at, 'untreatedControl']}
                        choices={Object.entries(text.controlChoices)}
                        empty={null}
                        remark={untreatedControl ? controlsRemark : null}
                        hideLabel
                      />
                    </td>
                    <td className={blocks.wide}>
                      <PlanField label={text.notesOf(number)} path={['treatments', at, 'notes']} hideLabel />
                    </td>
                    <td>
                      {applications}
                      {applicationsDone > 0 && (
                        <span className={blocks.soft}> ({text.ofWhichDone(applicationsDone)})</span>
                      )}
                    </td>
                    <td>{modesOfAction.join(', ') || planText.none}</td>
                    <td>{costPerHectare === null ? planText.none : formatAmount(costPerHectare)}</td>
                    <td>
                      <Button
                        look="quiet"
                        aria-label={text.removeNumber(number)}
                        onClick={() =>
                          void edit((before) => ({
                            ...before,
                            treatments: before.treatments.filter((one) => one.number !== number),
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
        </section>
      )}
      {plan.treatments.length > 0 && <p className={blocks.hint}>{text.controlHint}</p>}
      {notes.length > 0 && (
        <ul className={styles.notes}>
          {notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      )}
      <Button
        className={blocks.fit}
        onClick={() =>
          void edit((before) => ({
            ...before,
            treatments: [
              ...before.treatments,
              { number: next, name: text.newName(next), untreatedControl: null, levels: {}, notes: '' },
            ],
          }))
        }
      >
        {text.add}
      </Button>
      <TablesPanel table="treatments" />
      <SeasonLimits />
    </div>
  );
}

/** The most of a product or active ingredient in a season, as the user read it on the label. */
function SeasonLimits() {
  const { plan, edit } = usePlan();
  const empty = { of: 'product', name: '', amount: '', unit: '' };
  const [form, setForm] = useState(empty);
  const [problem, setProblem] = useState<string | null>(null);
  const set = (name: keyof typeof form) => (value: string) => setForm({ ...form, [name]: value });
  const summaries = useMemo(() => treatmentSummaries(plan), [plan]);
  const add = async () => {
    const limit = {
      of: form.of as 'product',
      name: form.name.trim(),
      most: { amount: numberOf(form.amount) as number, unit: form.unit.trim() },
    };
    const result = await edit((before) => ({ ...before, seasonLimits: [...before.seasonLimits, limit] }));
    if (!result.ok) return setProblem(problemWords(text.limitAmount, result.problems));
    setForm(empty);
    setProblem(null);
  };
  return (
    <section className={blocks.section} aria-label={text.limits}>
      <h2>{text.limits}</h2>
      <p className={blocks.hint}>{text.limitsHint}</p>
      <ul className={styles.list}>
        {plan.seasonLimits.map((limit, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the same product may have two limits
          <li key={index}>
            <div>
              <strong>{limit.name}</strong>{' '}
              <span className={blocks.soft}>
                {limit.most.amount} {limit.most.unit} (= {siQuantityText(siQuantity(limit.most))})
              </span>
              {summaries.flatMap(({ treatment, totals }) =>
                totals
                  .filter((total) => total.limit === limit && total.total !== null)
                  .map(({ total, most }) => (
                    <p key={treatment}>
                      {text.totals(treatment, `${formatAmount(total!)} ${most.unit}`, siQuantityText(most))}
                    </p>
                  )),
              )}
            </div>
            <Button
              look="quiet"
              aria-label={text.limitRemove(limit.name)}
              onClick={() =>
                void edit((before) => ({
                  ...before,
                  seasonLimits: before.seasonLimits.filter((_, at) => at !== index),
                }))
              }
            >
              {planText.remove}
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
            label={text.limitKind}
            value={form.of}
            onChange={set('of')}
            choices={Object.entries(text.limitOf)}
          />
          <FormField label={text.limitName} value={form.name} onChange={set('name')} />
          <FormField
            label={text.limitAmount}
            kind="number"
            value={form.amount}
            onChange={set('amount')}
            problem={problem}
          />
          <FormField label={planText.trial.unitShort} value={form.unit} onChange={set('unit')} />
        </div>
        <Button className={blocks.fit} type="submit" disabled={form.name.trim() === ''}>
          {text.limitAdd}
        </Button>
      </form>
    </section>
  );
}
