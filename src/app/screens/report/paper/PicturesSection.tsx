import type { TrialReport } from '../../../../core/report/trialReport.ts';
import { chartText } from '../../../../core/text/charts.ts';
import { compareText } from '../../../../core/text/compare.ts';
import { formatDay } from '../../../../core/text/format.ts';
import { reportText as text } from '../../../../core/text/report.ts';
import { Section } from './headings.tsx';
import { type PicturePlan, type Pictures, pictureKey } from './pictures.ts';
import { wordsIn } from './ResultsSection.tsx';

interface PicturesProps {
  readonly report: TrialReport;
  readonly plan: PicturePlan;
  readonly pictures: Pictures;
}

/** Typical plots side by side, and every plot over the dates. */
export function PicturesSection(props: PicturesProps) {
  // pictures are made one by one, and may not be there any more
  if (props.pictures.size === 0) return null;
  return (
    <Section title={text.sections.pictures}>
      <TypicalFigure {...props} />
      {props.plan.tooMany > 0 && <p>{text.tooManyPictures(props.plan.tooMany)}</p>}
      {props.plan.matrix.length > 0 && <MatrixFigure {...props} />}
    </Section>
  );
}

export function TypicalFigure({ report, plan, pictures }: PicturesProps) {
  const { result, ratingDate, block } = plan;
  const words = wordsIn(report, result);
  const names = new Map(report.treatments.map(({ number, name }) => [String(number), name]));
  const shown = plan.typical.flatMap((one) => {
    const picture = pictures.get(pictureKey({ photoId: one.photoId, kind: 'cut' }));
    return picture ? [{ ...one, picture }] : [];
  });
  if (shown.length === 0) return null;
  return (
    <figure className="paper-figure paper-numbered">
      <div className="paper-strip" data-count={shown.length}>
        {shown.map(({ plot, treatment, value, picture }) => (
          <div key={treatment}>
            <img src={picture} alt={text.pictureOf(plot, ratingDate)} />
            <p>
              <b>{text.pictureTitle(treatment, names.get(treatment) ?? null)}</b>
              <br />
              {text.pictureValue(plot, value.toFixed(words.decimals) + words.unit)}
            </p>
          </div>
        ))}
      </div>
      <figcaption>
        <b>{text.typical(formatDay(ratingDate))}</b> {text.typicalHint(words.name, block)}
      </figcaption>
    </figure>
  );
}

function MatrixFigure({ report, plan, pictures }: PicturesProps) {
  const words = wordsIn(report, plan.result);
  return (
    <figure className="paper-numbered">
      <div className="paper-table paper-matrix">
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than the screen is scrolled by keys */}
        <section className="paper-scroll" aria-label={text.matrix} tabIndex={0}>
          <table>
            <thead>
              <tr>
                <th scope="col">{text.columns.plot}</th>
                {plan.dates.map((date) => (
                  <th key={date} scope="col">
                    {formatDay(date, 'short')}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {plan.matrix.map(({ plot, treatment, cells }) => (
                <tr key={plot}>
                  <th scope="row">
                    <strong>{plot}</strong>
                    <br />
                    {chartText.matrix.treatment(String(treatment))}
                  </th>
                  {cells.map((cell, index) => {
                    const date = plan.dates[index]!;
                    const picture =
                      cell && pictures.get(pictureKey({ photoId: cell.photoId, kind: 'small' }));
                    return (
                      <td key={date}>
                        {picture ? (
                          <img src={picture} alt={text.pictureOf(plot, date)} />
                        ) : cell ? (
                          compareText.pictures.noPicture
                        ) : (
                          chartText.matrix.noPhoto
                        )}
                        {cell && cell.value !== null && (
                          <p>{cell.value.toFixed(words.decimals) + words.unit}</p>
                        )}
                      </td>
                    );
                  })}
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      </div>
      <figcaption>
        <b>{text.matrix}.</b> {text.matrixHint(words.name)}
      </figcaption>
    </figure>
  );
}
