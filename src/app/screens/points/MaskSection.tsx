import { useMemo } from 'react';
import { adjustCover } from '../../../core/cover/adjustedCover.ts';
import { addMatrices, maskAgainstPoints } from '../../../core/cover/errorMatrix.ts';
import { maskErrorsOf } from '../../../core/cover/maskErrors.ts';
import { writeReferenceCounts } from '../../../core/exchange/referenceCounts.ts';
import { judgedPoints } from '../../../core/point-grid/callCounts.ts';
import { type CountedPhoto, countsOf } from '../../../core/point-grid/countedPhoto.ts';
import { formatCount, formatPercent } from '../../../core/text/format.ts';
import { pointsText, signedPoints } from '../../../core/text/pointsScreen.ts';
import { Button } from '../../components/Button.tsx';
import { saveBlob } from '../../components/saveBlob.ts';
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
      <section className={styles.section} aria-labelledby="points-mask">
        <h2 id="points-mask">{text.mask}</h2>
        <p className={styles.soft}>{text.noMask}</p>
        {withStrokes > 0 && <p className={styles.hint}>{text.withStrokes(withStrokes)}</p>}
      </section>
    );
  }
  const accuracy = adjustCover(reference);
  const save = () => {
    const blob = new Blob([writeReferenceCounts(reference)], { type: 'application/json' });
    saveBlob(blob, `reference-counts-${date ?? 'no-date'}.json`);
  };
  return (
    <section className={styles.section} aria-labelledby="points-mask">
      <h2 id="points-mask">{text.mask}</h2>
      <p className={styles.soft}>{text.maskHint}</p>
      {withStrokes > 0 && <p className={styles.hint}>{text.withStrokes(withStrokes)}</p>}
      <CountsTable
        caption={text.matrix}
        rows={text.maskSays}
        columns={text.seen}
        classes={classes}
        counts={reference.counts}
      />
      <div className={styles.scroller}>
        <table className={styles.table}>
          <caption>{text.pooledAccuracy}</caption>
          <thead>
            <tr>
              <th scope="col">{text.klass}</th>
              <th scope="col" className={styles.number}>
                {text.users}
                <small>{text.usersHint}</small>
              </th>
              <th scope="col" className={styles.number}>
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
                <td className={styles.number}>
                  {share(accuracy.usersAccuracy[index]!, accuracy.usersStandardError[index]!)}
                </td>
                <td className={styles.number}>
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
      <div className={styles.row}>
        <Button onClick={save}>{text.saveCounts}</Button>
        <span className={styles.hint}>{text.saveCountsHint}</span>
      </div>
      <Agreement checked={checked} observer={observer} />
    </section>
  );
}

const share = (value: number | null, error: number | null): string =>
  value === null ? '–' : `${formatPercent(value)} %${error === null ? '' : ` ± ${(100 * error).toFixed(1)}`}`;

interface AgreementProps {
  readonly checked: readonly { readonly photo: CountedPhoto }[];
  readonly observer: string;
}

function Agreement({ checked, observer }: AgreementProps) {
  const { points, state } = usePoints();
  const { classIds } = points;
  const counted = checked.flatMap(({ photo }) => {
    const counts = countsOf(photo, observer, classIds);
    const judged = judgedPoints(counts);
    return judged > 0 && photo.mask ? [{ counts, judged, mask: photo.mask.mappedFraction }] : [];
  });
  if (counted.length < 2) {
    return (
      <>
        <h3>{text.agreement}</h3>
        <p className={styles.soft}>{text.tooFewPhotos}</p>
      </>
    );
  }
  return (
    <>
      <h3>{text.agreement}</h3>
      <div className={styles.scroller}>
        <table className={styles.table}>
          <caption>{text.agreementHint}</caption>
          <thead>
            <tr>
              <th scope="col">{text.klass}</th>
              <th scope="col" className={styles.number}>
                {text.photosWord}
              </th>
              <th scope="col" className={styles.number}>
                {text.meanDifference}
              </th>
              <th scope="col" className={styles.number}>
                {text.limits}
              </th>
              <th scope="col" className={styles.number}>
                {text.pointNoise}
              </th>
              <th scope="col" className={styles.number}>
                {text.lin}
              </th>
            </tr>
          </thead>
          <tbody>
            {state.classes.map((coverClass, index) => {
              const { limits, concordance, pointNoise } = maskAgainstPoints(
                counted.map(({ counts, judged, mask }) => ({
                  mask: mask[index]!,
                  points: counts.hits[index]! / judged,
                })),
                counted.map(({ judged }) => judged),
              );
              return (
                <tr key={coverClass.id}>
                  <th scope="row">
                    <ClassName coverClass={coverClass} index={index} />
                  </th>
                  <td className={styles.number}>{formatCount(counted.length)}</td>
                  <td className={styles.number}>
                    {limits ? signedPoints(limits.meanDifference) : '–'}
                    {limits && <small>{range(limits.meanDifferenceInterval)}</small>}
                  </td>
                  <td className={styles.number}>{limits ? range(limits.limits) : '–'}</td>
                  <td className={styles.number}>
                    {pointNoise === null ? '–' : range([-1.96 * pointNoise, 1.96 * pointNoise])}
                  </td>
                  <td className={styles.number}>
                    {concordance ? twoDecimals(concordance.coefficient) : '–'}
                    {concordance?.interval && (
                      <small>{`${twoDecimals(concordance.interval[0])} to ${twoDecimals(concordance.interval[1])}`}</small>
                    )}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      <p className={styles.hint}>{text.pointNoiseHint}</p>
    </>
  );
}

const range = ([low, high]: readonly [number, number]): string =>
  `${signedPoints(low)} to ${signedPoints(high)}`;

const twoDecimals = (value: number): string => value.toFixed(2).replace('-', '−');
