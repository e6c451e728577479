import { useEffect, useState } from 'react';
import { formatInstant } from '../../../core/text/format.ts';
import { planText } from '../../../core/text/plan.ts';
import blocks from '../../components/blocks.module.css';
import type { TrialChange } from '../../session/trialSession.ts';
import styles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';

const text = planText.audit;
const SHOWN = 200;
const LONGEST = 80;

/** Every change of the trial: field, old and new value, who, when, why. The newest first. */
export function AuditTable() {
  const { session, trial } = usePlan();
  const [changes, setChanges] = useState<readonly TrialChange[] | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a changed trial has another entry
  useEffect(() => {
    let current = true;
    void session.changes().then((read) => current && setChanges(read));
    return () => {
      current = false;
    };
  }, [session, trial]);
  if (changes === null) return null;
  return (
    <section className={blocks.section} aria-label={text.title}>
      <h2>{text.title}</h2>
      <p className={blocks.hint}>{planText.signature.hint}</p>
      {changes.length > SHOWN && <p>{text.newest(SHOWN, changes.length)}</p>}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than the screen is scrolled with the keyboard */}
      <section className={blocks.scroller} tabIndex={0} aria-label={text.table}>
        <table className={`${blocks.table} ${blocks.full}`}>
          <caption className="visually-hidden">{text.table}</caption>
          <thead>
            <tr>
              <th scope="col">{text.when}</th>
              <th scope="col">{text.who}</th>
              <th scope="col">{text.field}</th>
              <th scope="col">{text.before}</th>
              <th scope="col">{text.after}</th>
              <th scope="col">{text.why}</th>
            </tr>
          </thead>
          <tbody>
            {changes.slice(0, SHOWN).map(({ id, at, by, field, before, after, reason }) => (
              <tr key={id}>
                <td>{formatInstant(at)}</td>
                <td>{by ?? planText.none}</td>
                <th scope="row" className={blocks.wide}>
                  {field ?? text.whole}
                </th>
                <td className={blocks.wide}>
                  <Value value={before} />
                </td>
                <td className={blocks.wide}>
                  <Value value={after} />
                </td>
                <td className={blocks.wide}>{reason ?? planText.none}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </section>
  );
}

/** A value as it stands in the record; a whole record is opened where somebody wants it. */
function Value({ value }: { value: unknown }) {
  if (value === null || value === undefined) return planText.none;
  const written = typeof value === 'string' ? value : JSON.stringify(value, null, 1);
  if (written.length <= LONGEST) return written;
  return (
    <details className={styles.record}>
      <summary>{typeof value === 'string' ? `${written.slice(0, LONGEST)}…` : text.record}</summary>
      <pre>{written}</pre>
    </details>
  );
}
