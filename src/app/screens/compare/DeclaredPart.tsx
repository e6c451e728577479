import { declarationDrift } from '../../../core/statistics/declaredAnalysis.ts';
import { compareText } from '../../../core/text/compare.ts';
import { formatInstant } from '../../../core/text/format.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { Notice } from '../../components/Notice.tsx';
import type { KeptDeclaration } from '../../session/comparison.ts';
import styles from './CompareScreen.module.css';
import { DeclaredFacts } from './DeclaredFacts.tsx';
import type { PartProps } from './partProps.ts';

const text = compareText.declared;

/** What was declared, by whom and when; what it was before; the way to amend it. */
export function DeclaredPart({ compared, onAmend }: PartProps) {
  const { plan, declared, state } = compared;
  const drifts = declarationDrift(declared, plan);
  const newest = state.declarations.at(-1)!;
  const earlier = state.declarations.slice(0, -1).reverse();
  return (
    <div className={blocks.sections}>
      <section className={blocks.section} aria-label={text.title}>
        <h2>{text.title}</h2>
        <p>{signedText(newest)}</p>
        {drifts.length > 0 && (
          <Notice>
            <p>{text.drift(drifts)}</p>
          </Notice>
        )}
        <DeclaredFacts plan={plan} declared={declared} />
        <Button className={blocks.fit} onClick={onAmend}>
          {compareText.declare.amend}
        </Button>
      </section>
      {earlier.length > 0 && (
        <section className={blocks.section} aria-label={text.history}>
          <h2>{text.history}</h2>
          {earlier.map((one) => (
            <details key={one.id} className={styles.more}>
              <summary>{signedText(one)}</summary>
              {one.declared && <DeclaredFacts plan={plan} declared={one.declared} />}
            </details>
          ))}
        </section>
      )}
    </div>
  );
}

function signedText({ by, at, reason }: KeptDeclaration): string {
  const when = formatInstant(at, 'long');
  return reason === null ? text.by(by, when) : text.amendedBy(by, when, reason);
}
