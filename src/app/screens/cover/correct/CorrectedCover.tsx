import { correct } from '../../../../core/text/correct.ts';
import { review } from '../../../../core/text/review.ts';
import { Button } from '../../../components/Button.tsx';
import { shortName } from '../../../components/shortName.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import styles from './CorrectPanel.module.css';

interface CorrectedCoverProps {
  readonly photo: PhotoSummary;
  readonly onReview: () => void;
}

/** What was computed and what hands made of it, side by side, and the way to the review of the date. */
export function CorrectedCover({ photo, onReview }: CorrectedCoverProps) {
  const { figure, figures, ratingDate } = photo;
  const { corrected } = figures;
  if (!figure) return null;
  return (
    <section className={styles.section}>
      {corrected && (
        <>
          <h2>{correct.correctedTitle}</h2>
          <table className={styles.both}>
            <caption className="visually-hidden">{correct.table.caption}</caption>
            <thead>
              <tr>
                <th scope="col">{correct.table.class}</th>
                <th scope="col">{correct.table.computed}</th>
                <th scope="col">{correct.table.corrected}</th>
              </tr>
            </thead>
            <tbody>
              {corrected.settings.classes.map(({ id, name }, index) => (
                <tr key={id}>
                  <th scope="row">{shortName(name)}</th>
                  <td>{figure.cover[index] && correct.percent(figure.cover[index].coverFraction)}</td>
                  <td>{correct.percent(corrected.cover[index]!.coverFraction)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          {corrected.changedFraction !== undefined && (
            <p className={styles.soft}>{correct.changedShare(corrected.changedFraction)}</p>
          )}
        </>
      )}
      {ratingDate !== null && (
        <Button look="quiet" className={styles.quiet} onClick={onReview}>
          {review.command}
        </Button>
      )}
    </section>
  );
}
