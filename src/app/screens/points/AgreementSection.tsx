import { useState } from 'react';
import { maskAgainstPoints } from '../../../core/cover/errorMatrix.ts';
import { judgedPoints } from '../../../core/point-grid/callCounts.ts';
import { type CountedPhoto, countsOf } from '../../../core/point-grid/countedPhoto.ts';
import { formatCount } from '../../../core/text/format.ts';
import { pointsText, signedPoints } from '../../../core/text/pointsScreen.ts';
import { MethodDifferences } from '../../charts/MethodDifferences.tsx';
import blocks from '../../components/blocks.module.css';
import { Segments } from '../../components/Segments.tsx';
import { shortName } from '../../components/shortName.ts';
import { ClassName } from './ClassName.tsx';
import styles from './PointsScreen.module.css';
import { usePoints } from './pointsContext.tsx';
import { usePhotoNames } from './usePhotoNames.ts';

const text = pointsText.results;

interface AgreementSectionProps {
  /** Photos with points and a mask that no model was taught on. */
  readonly photos: readonly CountedPhoto[];
  readonly observer: string;
}

/** How far mask and points lie apart across photos, class by class, as table and figure. */
export function AgreementSection({ photos, observer }: AgreementSectionProps) {
  const { points, state, date } = usePoints();
  const nameOf = usePhotoNames();
  const [classId, setClassId] = useState('');
  const { classIds } = points;
  const { classes } = state;
  const counted = photos.flatMap((photo) => {
    const counts = countsOf(photo, observer, classIds);
    const judged = judgedPoints(counts);
    return judged > 0 && photo.mask
      ? [{ name: nameOf(photo.photoId), counts, judged, mask: photo.mask.mappedFraction }]
      : [];
  });
  if (counted.length < 2) {
    return (
      <>
        <h3>{text.agreement}</h3>
        <p className={styles.soft}>{text.tooFewPhotos}</p>
      </>
    );
  }
  const compared = classes.map((_, index) => {
    const pairs = counted.map(({ counts, judged, mask }) => ({
      mask: mask[index]!,
      points: counts.hits[index]! / judged,
    }));
    const judged = counted.map((one) => one.judged);
    return { pairs, ...maskAgainstPoints(pairs, judged) };
  });
  const drawn = Math.max(0, classIds.indexOf(classId));
  return (
    <>
      <h3>{text.agreement}</h3>
      <div className={blocks.scroller}>
        <table className={blocks.table}>
          <caption>
            <span>{text.agreementHint}</span>
          </caption>
          <thead>
            <tr>
              <th scope="col">{text.klass}</th>
              <th scope="col" className={blocks.number}>
                {text.photosWord}
              </th>
              <th scope="col" className={blocks.number}>
                {text.meanDifference}
              </th>
              <th scope="col" className={blocks.number}>
                {text.limits}
              </th>
              <th scope="col" className={blocks.number}>
                {text.pointNoise}
              </th>
              <th scope="col" className={blocks.number}>
                {text.lin}
              </th>
            </tr>
          </thead>
          <tbody>
            {compared.map(({ limits, concordance, pointNoise }, index) => (
              <tr key={classes[index]!.id}>
                <th scope="row">
                  <ClassName coverClass={classes[index]!} index={index} />
                </th>
                <td className={blocks.number}>{formatCount(counted.length)}</td>
                <td className={blocks.number}>
                  {limits ? signedPoints(limits.meanDifference) : '–'}
                  {limits && <small>{range(limits.meanDifferenceInterval)}</small>}
                </td>
                <td className={blocks.number}>{limits ? range(limits.limits) : '–'}</td>
                <td className={blocks.number}>
                  {pointNoise === null ? '–' : range([-1.96 * pointNoise, 1.96 * pointNoise])}
                </td>
                <td className={blocks.number}>
                  {concordance ? twoDecimals(concordance.coefficient) : '–'}
                  {concordance?.interval && (
                    <small>
                      {twoDecimals(concordance.interval[0])} to {twoDecimals(concordance.interval[1])}
                    </small>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className={blocks.hint}>{text.pointNoiseHint}</p>
      <Segments
        label={text.drawnClass}
        value={classIds[drawn]!}
        choices={classes.map(({ id, name }) => [id, shortName(name)] as const)}
        onChange={setClassId}
      />
      <MethodDifferences
        title={text.agreementOf(shortName(classes[drawn]!.name))}
        fileName={`mask-and-points-${classIds[drawn]}-${date ?? 'no-date'}`}
        methods={text.methodsCompared}
        pairs={compared[drawn]!.pairs.map(({ mask, points: byPoints }, index) => ({
          label: counted[index]!.name,
          mean: 50 * (mask + byPoints),
          difference: 100 * (mask - byPoints),
        }))}
        agreement={compared[drawn]!.limits}
      />
    </>
  );
}

const range = ([low, high]: readonly [number, number]): string =>
  `${signedPoints(low)} to ${signedPoints(high)}`;

const twoDecimals = (value: number): string => value.toFixed(2).replace('-', '−');
