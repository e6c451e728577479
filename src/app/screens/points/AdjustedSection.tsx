import type { Adjustment } from '../../../core/cover/adjustment.ts';
import { judgedPoints } from '../../../core/point-grid/callCounts.ts';
import { countsOf } from '../../../core/point-grid/countedPhoto.ts';
import { formatPercent } from '../../../core/text/format.ts';
import { adjustmentReasonText, adjustmentRefusalText } from '../../../core/text/points.ts';
import { intervalText, pointsText } from '../../../core/text/pointsScreen.ts';
import { groupBy } from '../../../core/trial/groupBy.ts';
import blocks from '../../components/blocks.module.css';
import { shortName } from '../../components/shortName.ts';
import type { DateFigures } from '../../session/points/pointsState.ts';
import { useObservable, useSession } from '../../session/useSession.tsx';
import { ClassName } from './ClassName.tsx';
import styles from './PointsScreen.module.css';
import { usePoints } from './pointsContext.tsx';
import { treatmentNames } from './treatmentNames.ts';
import { usePhotoNames } from './usePhotoNames.ts';

const text = pointsText.results;

interface SectionProps {
  readonly figures: DateFigures;
  readonly observer: string;
}

/** The masks' cover corrected for the errors found at the points, or why it cannot be. */
export function AdjustedSection({ figures, observer }: SectionProps) {
  const { points, state } = usePoints();
  const summaries = useObservable(useSession().photos);
  const nameOf = usePhotoNames();
  const treatmentName = treatmentNames(state);
  const { photos, byPhoto, byTreatment } = figures;
  const { classIds } = points;
  if (!byPhoto) return null;
  const named = (adjustment: Adjustment): Adjustment => withNames(adjustment, state.classes);
  const rows = byPhoto.photos.flatMap(({ photo, adjustment }) => {
    if (!adjustment.ok) return [];
    const counted = photos.find(({ photoId }) => photoId === photo);
    const figure = summaries.find(({ id }) => id === photo)?.figure;
    const counts = counted && countsOf(counted, observer, classIds);
    const judged = counts ? judgedPoints(counts) : 0;
    return [{ name: nameOf(photo), adjustment, figure, counts, judged }];
  });
  rows.sort((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true }));
  const refused = byPhoto.photos.flatMap(({ photo, adjustment }) =>
    adjustment.ok
      ? []
      : [{ name: nameOf(photo), why: adjustmentRefusalText(namedRefusal(adjustment, state.classes)) }],
  );
  return (
    <section className={blocks.section} aria-labelledby="points-adjusted">
      <h2 id="points-adjusted">{text.adjusted}</h2>
      <p className={styles.soft}>{text.adjustedHint}</p>
      <p className={styles.soft}>
        {byPhoto.way === 'pooled' ? text.pooled : text.ownPoints}{' '}
        {state.treatments.size > 0 && byPhoto.reason !== 'own-points-suffice' && text.test(byPhoto.test)}
      </p>
      {rows.length > 0 && (
        <div className={blocks.scroller}>
          <table className={blocks.table}>
            <caption>
              <span>{text.target.frame}</span>
            </caption>
            <thead>
              <tr>
                <th scope="col">{text.photoWord}</th>
                {state.classes.map((coverClass, index) => (
                  <th key={coverClass.id} scope="col" className={blocks.number}>
                    <ClassName coverClass={coverClass} index={index} />
                    <small>{text.adjustedShare}</small>
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {rows.map(({ name, adjustment, figure, counts, judged }) => (
                <tr key={name}>
                  <th scope="row">{name}</th>
                  {adjustment.classes.map(({ coverFraction, interval }, index) => {
                    const id = classIds[index]!;
                    const mask = figure?.cover.find(({ classId }) => classId === id)?.coverFraction ?? 0;
                    return (
                      <td key={id} className={blocks.number}>
                        {formatPercent(clamped(coverFraction))} %<small>{intervalText(interval)}</small>
                        <small>
                          {text.maskShare} {formatPercent(clamped(mask))}
                          {counts && judged > 0
                            ? `, ${text.pointsShare} ${formatPercent(counts.hits[index]! / judged)}`
                            : ''}
                        </small>
                      </td>
                    );
                  })}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      <Refusals refused={refused} count={text.refusals(refused.length)} />
      {byTreatment && (
        <>
          <h3>{text.byTreatment}</h3>
          <p className={styles.soft}>
            {adjustmentReasonText({
              ...byTreatment,
              test: {
                ...byTreatment.test,
                hardlyTested: byTreatment.test.hardlyTested.map((hardly) => ({
                  ...hardly,
                  treatment: treatmentName(hardly.treatment),
                })),
              },
            })}
          </p>
          {!state.declared && <p className={blocks.hint}>{text.notDeclared}</p>}
          {byTreatment.treatments.some(({ adjustment }) => adjustment.ok) && (
            <div className={blocks.scroller}>
              <table className={blocks.table}>
                <caption>
                  <span>{text.target.treatment}</span>
                </caption>
                <thead>
                  <tr>
                    <th scope="col">{text.treatmentWord}</th>
                    {state.classes.map((coverClass, index) => (
                      <th key={coverClass.id} scope="col" className={blocks.number}>
                        <ClassName coverClass={coverClass} index={index} />
                      </th>
                    ))}
                  </tr>
                </thead>
                <tbody>
                  {byTreatment.treatments.map(({ treatment, adjustment }) =>
                    adjustment.ok ? (
                      <tr key={treatment}>
                        <th scope="row">{treatmentName(treatment)}</th>
                        {adjustment.classes.map(({ coverFraction, interval }, index) => (
                          <td key={classIds[index]} className={blocks.number}>
                            {formatPercent(clamped(coverFraction))} %<small>{intervalText(interval)}</small>
                          </td>
                        ))}
                      </tr>
                    ) : null,
                  )}
                </tbody>
              </table>
            </div>
          )}
          <Refusals
            refused={byTreatment.treatments.flatMap(({ treatment, adjustment }) => {
              const shown = named(adjustment);
              return shown.ok ? [] : [{ name: treatmentName(treatment), why: adjustmentRefusalText(shown) }];
            })}
          />
          <Remarks
            adjustments={byTreatment.treatments.map(({ treatment, adjustment }) => ({
              name: treatmentName(treatment),
              adjustment: named(adjustment),
            }))}
          />
        </>
      )}
    </section>
  );
}

interface Refused {
  readonly name: string;
  readonly why: string;
}

/** Refusals in words, each said once for all whom it concerns. */
function Refusals({ refused, count }: { readonly refused: readonly Refused[]; readonly count?: string }) {
  if (refused.length === 0) return null;
  return (
    <ul className={styles.notes}>
      {count && (
        <li>
          <strong>{count}</strong>
        </li>
      )}
      {[...groupBy(refused, ({ why }) => why)].map(([why, own]) => (
        <li key={why}>
          {text.remarks(
            own.map(({ name }) => name),
            why,
          )}
        </li>
      ))}
    </ul>
  );
}

/** What was done to figures on the way. */
function Remarks({
  adjustments,
}: {
  readonly adjustments: readonly { readonly name: string; readonly adjustment: Adjustment }[];
}) {
  const remarks = adjustments.flatMap(({ name, adjustment }) =>
    adjustment.ok
      ? [
          ...(adjustment.collapsed.length > 0 ? [{ name, why: text.collapsed(adjustment.collapsed) }] : []),
          ...(adjustment.isCut ? [{ name, why: text.cut }] : []),
        ]
      : [],
  );
  return <Refusals refused={remarks} />;
}

const clamped = (value: number): number => Math.min(1, Math.max(0, value));

type Classes = readonly { readonly id: string; readonly name: string }[];

const namesOf = (ids: readonly string[], classes: Classes): string[] =>
  ids.map((id) => shortName(classes.find((one) => one.id === id)?.name ?? id));

/** The same with classes by name: what core hands on are ids. */
function withNames(adjustment: Adjustment, classes: Classes): Adjustment {
  return adjustment.ok
    ? { ...adjustment, collapsed: namesOf(adjustment.collapsed, classes) }
    : namedRefusal(adjustment, classes);
}

function namedRefusal<T extends Adjustment & { readonly ok: false }>(refusal: T, classes: Classes): T {
  return 'classes' in refusal ? { ...refusal, classes: namesOf(refusal.classes, classes) } : refusal;
}
