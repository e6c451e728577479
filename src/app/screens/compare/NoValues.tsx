import { Link } from 'wouter';
import type { ComparedVariable } from '../../../core/statistics/declaredAnalysis.ts';
import { compareText, methodText } from '../../../core/text/compare.ts';
import blocks from '../../components/blocks.module.css';
import styles from './CompareScreen.module.css';
import { type ComparedTrial, wordsOf } from './comparedTrial.ts';

const text = compareText.noValues;

/** Said where no plot has a value of a variable yet, with the way to one. */
export function NoValues({ compared, variable }: { compared: ComparedTrial; variable: ComparedVariable }) {
  const rated = variable.kind === 'rated';
  const how = rated || compared.declared.method === null ? null : methodText[compared.declared.method];
  return (
    <section className={blocks.section}>
      <p className={blocks.lead}>{text.sentence(wordsOf(compared, variable).variable, how)}</p>
      <Link className={styles.link} href={rated ? '/plan/scores' : '/plan/photos'}>
        {rated ? text.scores : text.photos}
      </Link>
    </section>
  );
}
