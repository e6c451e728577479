import { useMemo } from 'react';
import { adjustCover } from '../../../core/cover/adjustedCover.ts';
import { addMatrices } from '../../../core/cover/errorMatrix.ts';
import { maskErrorsOf } from '../../../core/cover/maskErrors.ts';
import { writeReferenceCounts } from '../../../core/exchange/referenceCounts.ts';
import type { CountedPhoto } from '../../../core/point-grid/countedPhoto.ts';
import { formatPercent } from '../../../core/text/format.ts';
import { pointsText } from '../../../core/text/pointsScreen.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { saveBlob } from '../../components/saveBlob.ts';
import { AgreementSection } from './AgreementSection.tsx';
import { ClassName } from './ClassName.tsx';
import { CountsTable } from './CountsTable.tsx';
import styles from './PointsScreen.module.css';
import { usePoints } from './pointsContext.tsx';

const text = pointsText.results;

interface SectionProps {
  readonly photos: readonly CountedPhoto[];
  readonly observer: string;
}

/** How right the automatic masks are at the points, and how far both lie apart across photos. */
export function MaskSection({ photos, observer }: SectionProps) {
  const { points, state, date } = usePoints();
  const { classes } = state;
  const { classIds } = points;
  const withStrokes = photos.filter(({ hasStrokes }) => hasStrokes).length;
  const checked = useMemo(
    () =>
      photos.flatMap((photo) => {
        const errors = photo.hasStrokes ? null : maskErrorsOf(photo, observer, classIds);
        return errors && errors.points > 0 && photo.mask ? [{ photo, errors, mask: photo.mask }] : [];
      }),
    [photos, observer, classIds],
  );
  const reference = useMemo(() => {
    if (checked.length === 0) return null;
    const mappedFraction = classIds.map(
      (_, i) => checked.reduce((sum, { mask }) => sum + mask.mappedFraction[i]!, 0) / checked.length,
    );
    return {
      classes: classIds,
      mappedFraction,
      counts: addMatrices(checked.map(({ errors }) => errors.counts)),
    };
  }, [checked, classIds]);
  if (!reference) {
    return (
      <section className={blocks.section} aria-labelledby="points-mask">
        <h2 id="points-mask">{text.mask}</h2>
        <p className={styles.soft}>{text.noMask}</p>
        {withStrokes > 0 && <p className={blocks.hint}>{text.withStrokes(withStrokes)}</p>}
      </section>
    );
  }
  const accuracy = adjustCover(reference);
  const save = () => {
    const blob = new Blob([writeReferenceCounts(reference)], { type: 'application/json' });
    saveBlob(blob, `reference-counts-${date ?? 'no-date'}.json`);
  };
  return (
    <section className={blocks.section} aria-labelledby="points-mask">
      <h2 id="points-mask">{text.mask}</h2>
      <p className={styles.soft}>{text.maskHint}</p>
      {withStrokes > 0 && <p className={blocks.hint}>{text.withStrokes(withStrokes)}</p>}
      <CountsTable
        caption={text.matrix}
        rows={text.maskSays}
        columns={text.seen}
        classes={classes}
        counts={reference.counts}
      />
      <div className={blocks.scroller}>
        <table className={blocks.table}>
          <caption>
            <span>{text.pooledAccuracy}</span>
          </caption>
          <thead>
            <tr>
              <th scope="col">{text.klass}</th>
              <th scope="col" className={blocks.number}>
                {text.users}
                <small>{text.usersHint}</small>
              </th>
              <th scope="col" className={blocks.number}>
                {text.producers}
                <small>{text.producersHint}</small>
              </th>
            </tr>
          </thead>
          <tbody>
            {classes.map((coverClass, index) => (
              <tr key={coverClass.id}>
                <th scope="row">
                  <ClassName coverClass={coverClass} index={index} />
                </th>
                <td className={blocks.number}>
                  {share(accuracy.usersAccuracy[index]!, accuracy.usersStandardError[index]!)}
                </td>
                <td className={blocks.number}>
                  {share(accuracy.producersAccuracy[index]!, accuracy.producersStandardError[index]!)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p>
        {accuracy.overallAccuracy !== null && text.overall(accuracy.overallAccuracy)}{' '}
        {text.kappa(accuracy.kappa, accuracy.kappaStandardError)}
      </p>
      <div className={blocks.row}>
        <Button onClick={save}>{text.saveCounts}</Button>
        <span className={blocks.hint}>{text.saveCountsHint}</span>
      </div>
      <AgreementSection photos={checked.map(({ photo }) => photo)} observer={observer} />
    </section>
  );
}

const share = (value: number | null, error: number | null): string =>
  value === null ? '–' : `${formatPercent(value)} %${error === null ? '' : ` ± ${(100 * error).toFixed(1)}`}`;
