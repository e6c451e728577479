import { useState } from 'react';
import { useLocation } from 'wouter';
import { observersOf, verdictPairs } from '../../../core/point-grid/countedPhoto.ts';
import { observerAgreement } from '../../../core/point-grid/observerAgreement.ts';
import { pointsText, signedPoints } from '../../../core/text/pointsScreen.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { FormField } from '../../components/FormField.tsx';
import { ClassName } from './ClassName.tsx';
import { CountsTable } from './CountsTable.tsx';
import styles from './PointsScreen.module.css';
import { usePoints } from './pointsContext.tsx';
import { useCounted } from './useCounted.ts';
import { WhichDate } from './WhichDate.tsx';

const text = pointsText.observers;
const results = pointsText.results;

/** How two observers agree on the same points: point by point, and in the cover they give. */
export function ObserversPart() {
  const { points, state } = usePoints();
  const counted = useCounted();
  const [, navigate] = useLocation();
  const [asked, setAsked] = useState<readonly [string, string]>(['', '']);
  if (counted === null) return null;
  const observers = observersOf(counted);
  const first = observers.find((one) => one === asked[0]) ?? observers[0];
  const others = observers.filter((one) => one !== first);
  const second = others.find((one) => one === asked[1]) ?? others[0];
  const agreement =
    first !== undefined && second !== undefined
      ? observerAgreement(verdictPairs(counted, first, second, points.classIds), points.classIds.length)
      : null;
  return (
    <div className={blocks.sections}>
      <div className={blocks.fields}>
        <WhichDate />
        {agreement && (
          <>
            <FormField
              label={text.first}
              value={first!}
              onChange={(one) => setAsked([one, second!])}
              choices={observers.map((one) => [one, one] as const)}
            />
            <FormField
              label={text.second}
              value={second!}
              onChange={(one) => setAsked([first!, one])}
              choices={others.map((one) => [one, one] as const)}
            />
          </>
        )}
      </div>
      {!agreement || agreement.points + agreement.indeterminate === 0 ? (
        <div className={styles.empty}>
          <p className={blocks.lead}>{text.need}</p>
          <Button className={blocks.fit} onClick={() => navigate('/points')}>
            {pointsText.part.count}
          </Button>
        </div>
      ) : (
        <section className={blocks.section} aria-labelledby="points-observers">
          <h2 id="points-observers">{text.title}</h2>
          <p>
            {text.judged(agreement.points, agreement.indeterminate)}{' '}
            {agreement.kappa && results.kappa(agreement.kappa.kappa, agreement.kappa.standardError)}
          </p>
          <CountsTable
            caption={text.matrix}
            rows={first!}
            columns={second!}
            classes={state.classes}
            counts={agreement.table}
          />
          <div className={blocks.scroller}>
            <table className={blocks.table}>
              <caption>
                <span>{text.hint}</span>
              </caption>
              <thead>
                <tr>
                  <th scope="col">{results.klass}</th>
                  <th scope="col" className={blocks.number}>
                    {text.bias}
                  </th>
                  <th scope="col" className={blocks.number}>
                    {results.limits}
                  </th>
                </tr>
              </thead>
              <tbody>
                {agreement.classes.map(({ bias, limits }, index) => (
                  <tr key={state.classes[index]!.id}>
                    <th scope="row">
                      <ClassName coverClass={state.classes[index]!} index={index} />
                    </th>
                    <td className={blocks.number}>{bias === null ? '–' : signedPoints(bias)}</td>
                    <td className={blocks.number}>
                      {limits
                        ? `${signedPoints(limits.limits[0])} to ${signedPoints(limits.limits[1])}`
                        : results.tooFewPhotos}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        </section>
      )}
    </div>
  );
}
