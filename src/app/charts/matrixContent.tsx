import { chartText } from '../../core/text/charts.ts';
import type { Drawing, DrawingSize, FigureContent } from './drawing.ts';
import { cautionOf } from './figureWords.ts';
import { round } from './Marker.tsx';
import { paint } from './paint.ts';
import type { MatrixPhoto, PhotoMatrixProps } from './photoMatrixProps.ts';
import { textWidth } from './textWidth.ts';

/** More would be too small to see and too much for a browser's memory. */
const MOST_PHOTOS = 400;
const GAP = 5;
/** Height over width of a picture's place. */
const ASPECT = 0.75;

/**
 * The matrix as one drawing with its pictures in it, for a file.
 *
 * @throws Error with more than 400 photos
 */
export async function matrixContent(
  props: PhotoMatrixProps,
): Promise<{ content: FigureContent; release: () => void }> {
  const { title, plots, ratingDates, photos, pictureFile, remarks = [] } = props;
  if (photos.length > MOST_PHOTOS) throw new Error(chartText.matrix.tooMany(photos.length, MOST_PHOTOS));
  const addresses = new Map<MatrixPhoto, string>();
  for (const photo of photos) {
    const file = await pictureFile?.(photo);
    if (file) addresses.set(photo, URL.createObjectURL(file));
  }
  return {
    content: {
      title,
      caption: [chartText.matrix.caption, ...remarks],
      caution: cautionOf(props),
      table: {
        columns: [
          { head: chartText.columns.plot, numeric: false },
          ...ratingDates.map((day) => ({ head: chartText.day(day), numeric: true })),
        ],
        rows: plots.map(({ plot }) => [
          plot,
          ...ratingDates.map(
            (day) =>
              photos.find((photo) => photo.plot === plot && photo.ratingDate === day)?.words ??
              chartText.matrix.noPhoto,
          ),
        ]),
      },
      draw: (size) => drawMatrix(props, addresses, size),
    },
    release: () => {
      for (const address of addresses.values()) URL.revokeObjectURL(address);
    },
  };
}

/** Plots down and dates across, or the other way round where that makes larger pictures on a slide. */
export function drawMatrix(
  { plots, ratingDates, photos }: PhotoMatrixProps,
  addresses: ReadonlyMap<MatrixPhoto, string>,
  size: DrawingSize,
): Drawing {
  const { widthPx, heightPx, textPx } = size;
  const byCell = new Map(photos.map((photo) => [`${photo.plot}\t${photo.ratingDate}`, photo]));
  const plotHeads = plots.map(({ plot, treatment }) => ({
    id: plot,
    lines: [plot, chartText.matrix.treatment(treatment)],
  }));
  const dayHeads = ratingDates.map((day) => ({ id: day, lines: [chartText.day(day)] }));
  const cellWidth = (down: number, across: number, headPx: number) => {
    const byWidth = (widthPx - headPx) / Math.max(1, across) - GAP;
    if (heightPx === null) return byWidth;
    return Math.min(byWidth, ((heightPx - textPx * 3) / Math.max(1, down) - textPx * 1.3 - GAP) / ASPECT);
  };
  const headOf = (heads: typeof plotHeads) =>
    Math.max(0, ...heads.flatMap(({ lines }) => lines.map((line) => textWidth(line, textPx)))) + GAP * 2;
  const upright = cellWidth(plots.length, ratingDates.length, headOf(plotHeads));
  const turned = cellWidth(ratingDates.length, plots.length, headOf(dayHeads));
  const isTurned = heightPx !== null && turned > upright;
  // the word "treatment" stands once beside the row of heads where columns are narrow
  const shortHeads = plots.map(({ plot, treatment }) => ({ id: plot, lines: [plot, treatment] }));
  const [down, across] = isTurned ? [dayHeads, shortHeads] : [plotHeads, dayHeads];
  const corner = isTurned ? [chartText.columns.plot, chartText.treatment] : [chartText.columns.plot];
  const headPx = headOf(down);
  const cellPx = Math.min(170, Math.max(16, isTurned ? turned : upright));
  const rowPx = cellPx * ASPECT + textPx * 1.3 + GAP;
  const top = textPx * 1.25 * Math.max(1, ...across.map(({ lines }) => lines.length)) + GAP;
  const small = Math.min(textPx * 0.92, cellPx / 4);
  return {
    widthPx: headPx + across.length * (cellPx + GAP),
    heightPx: Math.ceil(top + down.length * rowPx),
    marks: [],
    content: (
      <g fontSize={textPx} fill={paint.ink}>
        {corner.map((line, index) => (
          <text key={line} x={0} y={round(textPx * (1 + index * 1.25))} fontSize={small}>
            {line}
          </text>
        ))}
        {across.map(({ id, lines }, column) => (
          <g key={id} fontSize={small}>
            {lines.map((line, index) => (
              <text
                key={line}
                x={round(headPx + column * (cellPx + GAP))}
                y={round(textPx * (1 + index * 1.25))}
                fontWeight={index === 0 ? 600 : 400}
              >
                {line}
              </text>
            ))}
          </g>
        ))}
        {down.map((head, row) => (
          <g key={head.id}>
            {head.lines.map((line, index) => (
              <text
                key={line}
                x={0}
                y={round(top + row * rowPx + textPx * (1 + index * 1.25))}
                fontWeight={index === 0 ? 600 : 400}
              >
                {line}
              </text>
            ))}
            {across.map(({ id }, column) => {
              const photo = byCell.get(isTurned ? `${id}\t${head.id}` : `${head.id}\t${id}`);
              const place = {
                x: round(headPx + column * (cellPx + GAP)),
                y: round(top + row * rowPx),
                width: round(cellPx),
                height: round(cellPx * ASPECT),
              };
              const address = photo && addresses.get(photo);
              return (
                <g key={id}>
                  {address === undefined ? (
                    <rect {...place} fill={paint.sheet} stroke={paint.strong} strokeDasharray="3 3" />
                  ) : (
                    <image {...place} href={address} preserveAspectRatio="xMidYMid slice" />
                  )}
                  <text x={place.x} y={round(place.y + place.height + small * 1.15)} fontSize={small}>
                    {photo?.words ?? chartText.matrix.noPhoto}
                  </text>
                </g>
              );
            })}
          </g>
        ))}
      </g>
    ),
  };
}
