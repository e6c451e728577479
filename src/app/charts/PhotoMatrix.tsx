import { type ReactNode, useRef } from 'react';
import { chartText } from '../../core/text/charts.ts';
import type { CalendarDay } from '../../core/trial/calendarDay.ts';
import { useNear } from '../components/useNear.ts';
import { FigureSaving } from './FigureSaving.tsx';
import { matrixContent } from './matrixContent.tsx';
import styles from './PhotoMatrix.module.css';
import type { MatrixPhoto, PhotoMatrixProps } from './photoMatrixProps.ts';

/** Photos by plot and date, as a table of pictures; thousands are fine. */
export function PhotoMatrix(props: PhotoMatrixProps) {
  const { title, plots, ratingDates, photos, remarks = [], headingLevel = 3 } = props;
  const byCell = new Map(photos.map((photo) => [`${photo.plot}\t${photo.ratingDate}`, photo]));
  const Heading = `h${headingLevel}` as const;
  return (
    <figure className={styles.figure}>
      <Heading className={styles.title}>{title}</Heading>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls can be scrolled by keys */}
      <section className={styles.scroller} aria-label={title} tabIndex={0}>
        <table className={styles.matrix}>
          <thead>
            <tr>
              <th scope="col">{chartText.columns.plot}</th>
              {ratingDates.map((day) => (
                <th key={day} scope="col">
                  {chartText.day(day)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {plots.map(({ plot, treatment }) => (
              <MatrixRow
                key={plot}
                plot={plot}
                treatment={treatment}
                cells={ratingDates.map((day) => [day, byCell.get(`${plot}\t${day}`) ?? null] as const)}
                picture={props.picture}
                hrefOf={props.hrefOf}
                always={props.allRows ?? false}
              />
            ))}
          </tbody>
        </table>
      </section>
      <figcaption className={styles.caption}>{[chartText.matrix.caption, ...remarks].join(' ')}</figcaption>
      {props.pictureFile && (
        <FigureSaving title={title} fileName={props.fileName} make={() => matrixContent(props)} />
      )}
    </figure>
  );
}

interface MatrixRowProps {
  readonly plot: string;
  readonly treatment: string;
  readonly cells: readonly (readonly [CalendarDay, MatrixPhoto | null])[];
  readonly picture: PhotoMatrixProps['picture'];
  readonly hrefOf: PhotoMatrixProps['hrefOf'] | undefined;
  readonly always: boolean;
}

/** A row is its heading alone while it is far from the window: a season has thousands of pictures. */
function MatrixRow({ plot, treatment, cells, picture, hrefOf, always }: MatrixRowProps) {
  const row = useRef<HTMLTableRowElement>(null);
  const near = useNear(row) || always;
  return (
    <tr ref={row}>
      <th scope="row">
        <strong>{plot}</strong>
        <span>{chartText.matrix.treatment(treatment)}</span>
      </th>
      {!near && cells.length > 0 && <td colSpan={cells.length} className={styles.far} />}
      {near &&
        cells.map(([day, photo]) => (
          <td key={day}>
            {photo === null ? (
              <span className={styles.none}>{chartText.matrix.noPhoto}</span>
            ) : (
              <MatrixCell photo={photo} href={hrefOf?.(photo)}>
                {picture(photo)}
              </MatrixCell>
            )}
          </td>
        ))}
    </tr>
  );
}

interface MatrixCellProps {
  readonly photo: MatrixPhoto;
  readonly href: string | undefined;
  readonly children: ReactNode;
}

function MatrixCell({ photo, href, children }: MatrixCellProps) {
  const inside = (
    <>
      <span className={styles.picture}>{children}</span>
      <span className={styles.words}>{photo.words}</span>
    </>
  );
  if (href === undefined) return <span className={styles.cell}>{inside}</span>;
  return (
    <a
      className={styles.cell}
      href={href}
      aria-label={chartText.matrix.cell(photo.plot, photo.ratingDate, photo.words)}
    >
      {inside}
    </a>
  );
}
