import { correct } from '../../../../core/text/correct.ts';
import { formatPercent } from '../../../../core/text/format.ts';
import { lopsidedWarningText } from '../../../../core/text/mask.ts';
import { Button } from '../../../components/Button.tsx';
import { Icon } from '../../../components/Icon.tsx';
import styles from './CorrectPanel.module.css';
import type { TreatmentShares as Shares } from './useTreatmentCorrections.ts';

interface TreatmentSharesProps {
  readonly shares: Shares;
  readonly classNames: readonly string[];
  readonly shown: boolean;
  readonly onShow: () => void;
}

/** How much was corrected in each treatment, and whether that leans. */
export function TreatmentShares({ shares, classNames, shown, onShow }: TreatmentSharesProps) {
  const { treatments, warnings } = shares;
  const [first, ...others] = warnings;
  return (
    <section className={styles.section}>
      <h2>
        {warnings.length > 0 && <Icon name="trouble" size={18} />}
        {correct.byTreatment}
      </h2>
      {first && <p>{lopsidedWarningText(first, classNames)}</p>}
      {others.length > 0 && (
        <details className={styles.others}>
          <summary>{correct.moreWarnings(others.length)}</summary>
          {others.map((warning) => (
            <p key={JSON.stringify(warning)}>{lopsidedWarningText(warning, classNames)}</p>
          ))}
        </details>
      )}
      <ul className={styles.soft}>
        {treatments.map(({ treatment, meanChangedFraction, correctedPhotos, photos }) => (
          <li key={treatment}>
            {correct.treatmentRow(treatment, formatPercent(meanChangedFraction), correctedPhotos, photos)}
          </li>
        ))}
      </ul>
      {!shown && (
        <>
          <p className={styles.soft}>
            {correct.hidden} {correct.revealHint}
          </p>
          <Button look="quiet" className={styles.quiet} onClick={onShow}>
            {correct.reveal}
          </Button>
        </>
      )}
    </section>
  );
}
