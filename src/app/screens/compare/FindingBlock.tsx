import { type Finding, findingOf } from '../../../core/statistics/finding.ts';
import { compareText } from '../../../core/text/compare.ts';
import { findingSentences } from '../../../core/text/finding.ts';
import { applicationsBy } from '../../../core/trial/applicationsBy.ts';
import styles from './CompareScreen.module.css';
import { type ComparedTrial, comparisonOf, confidencePercent, wordsOf } from './comparedTrial.ts';

const text = compareText.finding;

/** What the declared comparison came to, in plain sentences. */
export function FindingBlock({ compared }: { compared: ComparedTrial }) {
  const { declared } = compared;
  const found = declaredFinding(compared);
  if (typeof found === 'string') {
    return (
      <section className={styles.finding} aria-label={text.title}>
        <p className={styles.main} role="status">
          {found}
        </p>
      </section>
    );
  }
  const sentences = findingSentences(found, wordsOf(compared, declared.variable));
  const main = sentences.filter(({ kind }) => kind === 'shown');
  const lead = main.length > 0 ? main : sentences.slice(0, 1);
  const rest = sentences.filter((sentence) => !lead.includes(sentence));
  return (
    <section className={styles.finding} aria-label={text.title}>
      {lead.map((sentence) => (
        <p key={sentence.text} className={styles.main}>
          {sentence.text}
        </p>
      ))}
      <ul>
        {rest.map((sentence) => (
          <li key={sentence.text}>{sentence.text}</li>
        ))}
      </ul>
      {main.length > 0 && declared.transform === 'none' && (
        <p className={styles.hint}>{text.confidence(String(confidencePercent(declared.alpha)))}</p>
      )}
    </section>
  );
}

/** The finding, or a sentence that says why there is none yet. */
function declaredFinding(compared: ComparedTrial): Finding | string {
  const { declared, plan, state } = compared;
  const { variable, when, minimumPressure } = declared;
  const comparison = comparisonOf(compared, variable);
  if (!comparison) return text.pending;
  const { dates, byDate, overDates, options } = comparison;
  const source = { variable, control: options.control ?? null, minimumPressure };
  if (when.kind === 'date') {
    if (!dates.includes(when.ratingDate)) return text.notRated(when.ratingDate);
    const found = byDate.get(when.ratingDate);
    if (!found) return text.pending;
    const applications = applicationsBy(plan, when.ratingDate);
    return findingOf({
      ...source,
      applications,
      at: { kind: 'date', ratingDate: when.ratingDate },
      analysis: found.analysis,
    });
  }
  if (overDates === undefined && state.trouble === null) return text.pending;
  const area = overDates?.overDates.area;
  if (!area) return text.areaNeedsDates;
  const [from, to] = [dates[0]!, dates.at(-1)!];
  return findingOf({
    ...source,
    applications: applicationsBy(plan, to),
    at: { kind: 'area', from, to },
    analysis: area.analysis,
  });
}
