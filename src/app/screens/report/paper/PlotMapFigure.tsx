import type { TrialReport } from '../../../../core/report/trialReport.ts';
import { reportText as text } from '../../../../core/text/report.ts';

const WIDTH = 640;
const GAP = 3;
const EDGE = 4;

/** The plots as they lie: row 1 at the bottom, where the person stands. */
export function PlotMapFigure({ report: { plots, trial } }: { report: TrialReport }) {
  const rows = Math.max(...plots.map(({ row }) => row));
  const columns = Math.max(...plots.map(({ column }) => column));
  const size = trial.plotSize;
  const width = Math.min(96, WIDTH / columns);
  const aspect = size ? size.grossLengthMm / size.grossWidthMm : 0.7;
  const longest = Math.max(...plots.map(({ plot }) => plot.length));
  // digits are about 0.56 of their type size wide
  const plotPx = Math.min(12, (width - 2 * EDGE) / (0.6 * longest));
  const treatmentPx = Math.min(17, width * 0.4);
  // the name stands above the treatment, never over it
  const height = Math.max(plotPx + treatmentPx + 3 * EDGE, Math.min(44, width * aspect));
  return (
    <figure className="paper-figure paper-numbered">
      <svg
        xmlns="http://www.w3.org/2000/svg"
        viewBox={`0 0 ${columns * width} ${rows * height}`}
        width={columns * width}
        height={rows * height}
        fontFamily="'Liberation Sans', Helvetica, Arial, 'Noto Sans', sans-serif"
        role="img"
        aria-label={text.sections.map}
      >
        {plots.map(({ plot, treatment, block, row, column }) => {
          const [x, y] = [(column - 1) * width, (rows - row) * height];
          const shaded = block !== null && block % 2 === 0;
          return (
            <g key={plot}>
              <rect
                x={x + GAP / 2}
                y={y + GAP / 2}
                width={width - GAP}
                height={height - GAP}
                fill={shaded ? '#e6e8e5' : '#ffffff'}
                stroke="#7d8583"
              />
              <text x={x + EDGE + GAP / 2} y={y + plotPx + EDGE} fontSize={plotPx} fill="#51585a">
                {plot}
              </text>
              <text
                x={x + width / 2}
                y={y + height - GAP / 2 - EDGE - 1}
                fontSize={treatmentPx}
                fontWeight={600}
                textAnchor="middle"
                fill="#16191a"
              >
                {treatment}
              </text>
            </g>
          );
        })}
      </svg>
      <figcaption>
        <b>{text.sections.map}.</b> {text.mapCaption}
      </figcaption>
    </figure>
  );
}
