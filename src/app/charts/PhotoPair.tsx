import { chartText } from '../../core/text/charts.ts';
import type { CalendarDay } from '../../core/trial/calendarDay.ts';
import type { ChartTreatment, ChartWords } from './chartTypes.ts';
import type { Drawing, DrawingSize, FigureContent } from './drawing.ts';
import { Figure } from './Figure.tsx';
import { cautionOf, nameOf } from './figureWords.ts';
import { round } from './Marker.tsx';
import { paint } from './paint.ts';
import { wrapText } from './textWidth.ts';
import { useFigureContent } from './useFigureContent.ts';

/** A picture of a plot, cut to what is to be seen. */
export interface PairPicture extends ChartTreatment {
  readonly plot: string;
  /** Address of the picture (an object URL or data). */
  readonly url: string;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Ground that one pixel stands for; null where not known. */
  readonly millimetresPerPixel: number | null;
  /** The figure of this photo in words, e.g. "Weedy grass 38 %". */
  readonly words: string;
}

export interface PhotoPairProps extends ChartWords {
  readonly ratingDate: CalendarDay;
  readonly block: string | null;
  /** Untreated first. */
  readonly pictures: readonly [PairPicture, PairPicture];
}

/** An untreated and a treated plot side by side, at one scale where it is known. */
export function PhotoPair(props: PhotoPairProps) {
  return <Figure content={useFigureContent(photoPair, props)} {...props} />;
}

const scaled = (pictures: PhotoPairProps['pictures']): boolean =>
  pictures.every(({ millimetresPerPixel }) => millimetresPerPixel !== null && millimetresPerPixel > 0);

export function photoPair(props: PhotoPairProps): FigureContent {
  const { pictures, block, ratingDate } = props;
  return {
    title: props.title,
    caption: [
      chartText.pair.caption(block, ratingDate),
      scaled(pictures) ? chartText.pair.oneScale : chartText.pair.noScale,
      ...(props.remarks ?? []),
    ],
    caution: cautionOf(props),
    table: {
      columns: [
        { head: chartText.treatment, numeric: false },
        { head: chartText.columns.plot, numeric: false },
        { head: chartText.columns.cover, numeric: false },
      ],
      rows: pictures.map((picture) => [nameOf(picture), picture.plot, picture.words]),
    },
    draw: (size) => drawPhotoPair(props, size),
  };
}

const GAP = 14;
const LEADING = 1.25;

function drawPhotoPair({ pictures }: PhotoPairProps, size: DrawingSize): Drawing {
  const { textPx } = size;
  const widthPx = size.heightPx === null ? Math.min(size.widthPx, 900) : size.widthPx;
  const known = scaled(pictures);
  // extent of each picture in a common unit: millimetres of ground, or pictures of equal width
  const extents = pictures.map(({ widthPx, heightPx, millimetresPerPixel }) => {
    const unit = known ? millimetresPerPixel! : 1000 / Math.max(1, widthPx);
    return { width: Math.max(1, widthPx) * unit, height: Math.max(1, heightPx) * unit };
  });
  const columnPx = (widthPx - GAP) / 2;
  const heads = pictures.map((picture) => [
    ...wrapText(nameOf(picture), columnPx, textPx, 4, true).map((line) => ({ line, strong: true })),
    ...wrapText(chartText.pair.plotAndWords(picture.plot, picture.words), columnPx, textPx, 3).map(
      (line) => ({ line, strong: false }),
    ),
  ]);
  const headPx = Math.max(...heads.map(({ length }) => length)) * textPx * LEADING + 6;
  const barPx = known ? textPx * 2.4 : textPx * 0.5;
  const tallest = Math.max(...extents.map(({ height }) => height));
  const room =
    size.heightPx === null ? Number.POSITIVE_INFINITY : Math.max(60, size.heightPx - headPx - barPx);
  const perUnit = Math.min(columnPx / Math.max(...extents.map(({ width }) => width)), room / tallest);
  const bottom = headPx + tallest * perUnit;
  return {
    widthPx,
    heightPx: Math.ceil(bottom + barPx),
    marks: [],
    content: (
      <g fontSize={textPx} fill={paint.ink}>
        {pictures.map((picture, index) => {
          const x = index * (columnPx + GAP);
          const { width, height } = extents[index]!;
          return (
            <g key={`${picture.plot} ${picture.treatment}`}>
              {heads[index]!.map(({ line, strong }, row) => (
                <text
                  // biome-ignore lint/suspicious/noArrayIndexKey: lines of one text
                  key={row}
                  x={round(x)}
                  y={round(textPx * (0.95 + row * LEADING))}
                  fontWeight={strong ? 600 : 400}
                >
                  {line}
                </text>
              ))}
              <image
                href={picture.url}
                x={round(x)}
                y={round(headPx)}
                width={round(width * perUnit)}
                height={round(height * perUnit)}
                preserveAspectRatio="none"
              />
            </g>
          );
        })}
        {known && (
          <ScaleBar y={bottom + textPx} perMillimetre={perUnit} mostPx={columnPx * 0.6} textPx={textPx} />
        )}
      </g>
    ),
  };
}

const ROUND_LENGTHS = [5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000];

interface ScaleBarProps {
  readonly y: number;
  readonly perMillimetre: number;
  readonly mostPx: number;
  readonly textPx: number;
}

/** The longest round length that fits. */
function ScaleBar({ y, perMillimetre, mostPx, textPx }: ScaleBarProps) {
  const length = ROUND_LENGTHS.findLast((millimetres) => millimetres * perMillimetre <= mostPx);
  if (length === undefined) return null;
  const px = length * perMillimetre;
  return (
    <g>
      <path
        d={`M0.750 ${round(y - 4)}v8M0.750 ${round(y)}H${round(px)}M${round(px)} ${round(y - 4)}v8`}
        stroke={paint.ink}
        strokeWidth={1.5}
        fill="none"
      />
      <text x={round(px + 8)} y={round(y + textPx * 0.35)}>
        {chartText.pair.bar(length)}
      </text>
    </g>
  );
}
