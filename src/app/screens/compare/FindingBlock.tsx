import { confidencePercent } from '../../../core/statistics/confidencePercent.ts';
import { declaredFinding } from '../../../core/statistics/declaredFinding.ts';
import { compareText } from '../../../core/text/compare.ts';
import { findingSentences } from '../../../core/text/finding.ts';
import blocks from '../../components/blocks.module.css';
import type { VariableComparison } from '../../session/comparison.ts';
import styles from './CompareScreen.module.css';
import { type ComparedTrial, comparisonOf, wordsOf } from './comparedTrial.ts';

const text = compareText.finding;

/** What the declared comparison came to, in plain sentences. */
export function FindingBlock({ compared }: { compared: ComparedTrial }) {
  const { declared } = compared;
  const found = shownFinding(compared, comparisonOf(compared, declared.variable));
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
        <p className={blocks.hint}>{text.confidence(String(confidencePercent(declared.alpha)))}</p>
      )}
    </section>
  );
}

/** The finding, or a sentence that says why there is none yet. */
function shownFinding({ declared, plan, state }: ComparedTrial, comparison: VariableComparison | null) {
  if (!comparison) return text.pending;
  const found = declaredFinding(plan, declared, comparison);
  if (found.ok) return found.finding;
  if (found.why === 'not-rated') return text.notRated(found.ratingDate);
  const stopped = state.trouble !== null && declared.when.kind === 'area';
  return found.why === 'pending' && !stopped ? text.pending : text.areaNeedsDates;
}
