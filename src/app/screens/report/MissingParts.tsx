import { Link } from 'wouter';
import type { TrialReport } from '../../../core/report/trialReport.ts';
import { reportText } from '../../../core/text/report.ts';
import styles from './ReportScreen.module.css';

const text = reportText.screen;

/** What a report has a place for and the records do not hold, with the way there. */
export function MissingParts({ report, unreadable }: { report: TrialReport; unreadable: boolean }) {
  const { plots, measuring, declared, applications, points, corrections } = report;
  const items = text.missingItems;
  const isDone = applications.some(({ progress }) => progress.state === 'done');
  const missing: readonly (readonly [isMissing: boolean, words: readonly [string, string], href: string])[] =
    [
      [plots.length === 0, items.plots, '/plan/layout'],
      [measuring === null, items.photos, '/plan/photos'],
      [declared === null && !unreadable, items.declared, '/compare'],
      [unreadable, items.unreadable, '/compare/declared'],
      [applications.length > 0 && !isDone, items.conduct, '/plan/applications'],
      [measuring !== null && corrections?.lookedAt === 0, items.looks, '/review'],
      [measuring !== null && points === null, items.points, '/points'],
    ];
  const open = missing.filter(([isMissing]) => isMissing);
  return (
    <section className={styles.group} aria-label={text.missing}>
      <h2>{text.missing}</h2>
      {open.length === 0 ? (
        <p className={styles.hint}>{text.nothingMissing}</p>
      ) : (
        <ul className={styles.missing}>
          {open.map(([, [sentence, go], href]) => (
            <li key={sentence}>
              {sentence} <Link href={href}>{go}</Link>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
