import { useMemo, useState } from 'react';
import { writeTiming } from '../../../core/exchange/trialTablesTiming.ts';
import { formatDay } from '../../../core/text/format.ts';
import { planText } from '../../../core/text/plan.ts';
import {
  APPLICATION_CAUTION,
  calendarStateText,
  EXPERIMENTAL_USE,
  listed,
  planProblemText,
  planQueryText,
  siQuantityText,
  waitingForText,
} from '../../../core/text/trial.ts';
import type { Application, AppliedProduct } from '../../../core/trial/application.ts';
import { planProblems, planQueries } from '../../../core/trial/planProblems.ts';
import { siQuantity } from '../../../core/trial/quantity.ts';
import { type CalendarEntry, trialCalendar } from '../../../core/trial/trialCalendar.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { today } from '../../components/today.ts';
import { ApplicationDialog } from './ApplicationDialog.tsx';
import styles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';
import { TablesPanel } from './TablesPanel.tsx';

const text = planText.applications;

/** The applications in the order of their days: what, on which treatments, planned or done. */
export function ApplicationsPart() {
  const { plan } = usePlan();
  const [open, setOpen] = useState<string | 'new' | null>(null);
  const entries = useMemo(
    () => trialCalendar(plan, today()).filter(({ kind }) => kind === 'application'),
    [plan],
  );
  const remarks = useMemo(() => remarksByApplication(plan), [plan]);
  const byId = new Map(plan.applications.map((application) => [application.id, application]));
  const experimental = plan.applications.some(({ products }) =>
    products.some(({ use }) => use === 'experimental'),
  );
  return (
    <div className={blocks.sections}>
      <p className={blocks.hint}>
        {APPLICATION_CAUTION} {experimental && EXPERIMENTAL_USE}
      </p>
      {entries.length === 0 ? (
        <p>{text.empty}</p>
      ) : (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than the screen is scrolled with the keyboard
        <section className={blocks.scroller} tabIndex={0} aria-label={text.caption}>
          <table className={`${blocks.table} ${blocks.full}`}>
            <caption className="visually-hidden">{text.caption}</caption>
            <thead>
              <tr>
                <th scope="col">{text.id}</th>
                <th scope="col">{text.day}</th>
                <th scope="col">{text.state}</th>
                <th scope="col">{text.treatments}</th>
                <th scope="col">{text.description}</th>
                <th scope="col">{text.products}</th>
                <th scope="col">{text.timing}</th>
                <td />
              </tr>
            </thead>
            <tbody>
              {entries.map((entry) => {
                const application = byId.get(entry.id)!;
                return (
                  <Row
                    key={entry.id}
                    entry={entry}
                    application={application}
                    remarks={remarks.get(entry.id) ?? []}
                    onEdit={() => setOpen(entry.id)}
                  />
                );
              })}
            </tbody>
          </table>
        </section>
      )}
      <Button className={blocks.fit} disabled={plan.treatments.length === 0} onClick={() => setOpen('new')}>
        {text.add}
      </Button>
      <TablesPanel table="applications" />
      {open !== null && (
        <ApplicationDialog application={byId.get(open) ?? null} onClose={() => setOpen(null)} />
      )}
    </div>
  );
}

function Row(props: {
  readonly entry: CalendarEntry;
  readonly application: Application;
  readonly remarks: readonly string[];
  readonly onEdit: () => void;
}) {
  const { entry, application, remarks, onEdit } = props;
  const { id, treatments, description, products, timing } = application;
  return (
    <tr>
      <th scope="row">{id}</th>
      <td>{entry.day === null ? planText.none : formatDay(entry.day, 'short')}</td>
      <td data-state={entry.state}>
        {calendarStateText[entry.state]}
        {entry.waitingFor && <span className={blocks.soft}>: {waitingForText(entry.waitingFor)}</span>}
      </td>
      <td>{listed(treatments)}</td>
      <td className={blocks.wide}>
        {description}
        {remarks.map((remark) => (
          <p key={remark} className={styles.trouble}>
            {remark}
          </p>
        ))}
      </td>
      <td className={blocks.wide}>
        {products.map((product, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a tank may hold the same product twice
          <p key={index}>{productWords(product)}</p>
        ))}
      </td>
      <td>{writeTiming(timing)}</td>
      <td>
        <Button look="quiet" aria-label={text.editOne(id)} onClick={onEdit}>
          {planText.edit}
        </Button>
      </td>
    </tr>
  );
}

function productWords({ name, rate, use }: AppliedProduct): string {
  const parts = [name];
  if (rate) parts.push(`${rate.amount} ${rate.unit} (${text.si(siQuantityText(siQuantity(rate)))})`);
  if (use === 'experimental') parts.push(text.experimental);
  return parts.join(', ');
}

/** What contradicts or is asked about single applications, to stand in their rows. */
function remarksByApplication(plan: Parameters<typeof planProblems>[0]): Map<string, string[]> {
  const remarks = new Map<string, string[]>();
  const add = (id: string, sentence: string) => remarks.set(id, [...(remarks.get(id) ?? []), sentence]);
  for (const problem of planProblems(plan)) {
    if (problem.code === 'application-of-unknown-treatment')
      add(problem.application, planProblemText(problem));
    if (problem.code === 'timing-after-unknown-application') add(problem.of, planProblemText(problem));
    if (problem.code === 'timing-ring') {
      for (const id of problem.applications) add(id, planProblemText(problem));
    }
  }
  for (const query of planQueries(plan)) {
    if ('application' in query) add(query.application, planQueryText(query));
  }
  return remarks;
}
