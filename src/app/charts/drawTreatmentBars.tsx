import { chartText } from '../../core/text/charts.ts';
import { BottomAxis } from './axes.tsx';
import { spoken } from './drawCoverOverTime.tsx';
import type { Drawing, DrawingSize } from './drawing.ts';
import { barOf, nameOf } from './figureWords.ts';
import { Marker, round } from './Marker.tsx';
import { paint } from './paint.ts';
import { valueScale } from './scales.ts';
import { textWidth, wrapText } from './textWidth.ts';
import type { TreatmentBarsProps } from './treatmentBarsProps.ts';
import { treatmentStyle } from './treatmentStyle.ts';

/** From this width on names stand left of the bars, else above them. */
const NAMES_BESIDE = 520;
const LEADING = 1.2;

/** Level bars, so that names of treatments can be read; values and letters in columns of their own. */
export function drawTreatmentBars(props: TreatmentBarsProps, size: DrawingSize): Drawing {
  const { quantity, means, spread = 'standard-error' } = props;
  const { widthPx, textPx } = size;
  const beside = widthPx >= NAMES_BESIDE;
  const signPx = textPx * 1.6;
  const widestName = Math.max(0, ...means.map((mean) => textWidth(nameOf(mean), textPx)));
  const namePx = beside ? Math.min(widestName, widthPx * 0.3) + signPx + 10 : 0;
  const numbers = means.map((mean) => ({
    value: valueWords(mean, spread),
    letters: mean.letters ?? '',
  }));
  const valuePx = Math.max(0, ...numbers.map(({ value }) => textWidth(value, textPx)));
  const lettersPx = Math.max(0, ...numbers.map(({ letters }) => textWidth(letters, textPx, true)));
  const left = namePx + 4;
  const right = Math.max(left + 60, widthPx - valuePx - lettersPx - (lettersPx > 0 ? 30 : 16));
  const scale = valueScale(
    means.flatMap((mean) => [mean.mean, ...(barOf(mean, spread) ?? [])]),
    { pixels: [left, right], range: quantity.range ?? 'tight', apartPx: 64 },
  );
  const names = means.map((mean) =>
    wrapText(nameOf(mean), (beside ? namePx : widthPx) - signPx - 10, textPx, beside ? 3 : 2),
  );
  const nameLines = Math.max(1, ...names.map(({ length }) => length));
  const top = textPx * 2.4;
  const below = textPx * 2;
  const least = beside
    ? Math.max(textPx * 2.4, nameLines * textPx * LEADING + 8)
    : textPx * 2.7 + nameLines * textPx * LEADING;
  const spare =
    size.heightPx === null ? 0 : (size.heightPx - top - below) / Math.max(1, means.length) - least;
  const rowPx = least + Math.min(Math.max(0, spare), textPx * 3);
  const bottom = top + rowPx * means.length;
  const barPx = beside ? Math.min(rowPx * 0.62, textPx * 3) : textPx * 1.5;
  const zero = scale.at(0);
  const rows = means.map((mean, place) => {
    const rowTop = top + place * rowPx;
    const headPx = beside ? 0 : (names[place]!.length * LEADING + 0.3) * textPx;
    const centre = beside ? rowTop + rowPx / 2 : rowTop + headPx + barPx / 2 + 2;
    return { mean, place, rowTop, centre, look: treatmentStyle(place), lines: names[place]! };
  });
  return {
    widthPx,
    heightPx: Math.ceil(bottom + below),
    marks: rows.map(({ mean, place, centre }) => ({
      x: mean.mean === null ? zero : scale.at(mean.mean),
      y: centre,
      series: place,
      step: 0,
      says: chartText.meanWords(spoken(mean, nameOf(mean)), quantity.unit, props.ratingDate),
    })),
    content: (
      <g fontSize={textPx} fill={paint.ink}>
        <text x={0} y={textPx} fontWeight={600}>
          {chartText.axis(quantity.name, quantity.unit)}
        </text>
        <BottomAxis scale={scale} y={[top - textPx * 0.4, bottom]} textPx={textPx} />
        {rows.map(({ mean, place, rowTop, centre, look, lines }) => {
          const bar = barOf(mean, spread);
          const nameTop = beside
            ? centre - ((lines.length - 1) * textPx * LEADING) / 2 + textPx * 0.35
            : rowTop + textPx;
          return (
            <g key={mean.treatment} data-treatment={mean.treatment}>
              <Marker
                x={beside ? textPx * 0.6 : left + textPx * 0.6}
                y={nameTop - textPx * 0.35}
                look={look}
                radius={4.5}
              />
              {lines.map((line, index) => (
                <text
                  key={line}
                  x={round(beside ? signPx : left + signPx)}
                  y={round(nameTop + index * textPx * LEADING)}
                >
                  {line}
                </text>
              ))}
              {mean.mean !== null && (
                <>
                  <rect
                    x={round(Math.min(zero, scale.at(mean.mean)))}
                    y={round(centre - barPx / 2)}
                    width={round(Math.abs(scale.at(mean.mean) - zero))}
                    height={round(barPx)}
                    fill={look.colour}
                    fillOpacity={look.filled ? 0.3 : 0.08}
                    data-part="bar"
                  />
                  <path
                    d={`M${round(scale.at(mean.mean))} ${round(centre - barPx / 2)}v${round(barPx)}`}
                    stroke={look.colour}
                    strokeWidth={3}
                    data-part="mean"
                  />
                </>
              )}
              {bar && <LevelErrorBar x={[scale.at(bar[0]), scale.at(bar[1])]} y={centre} />}
              <text
                x={round(right + 12 + valuePx)}
                y={round(centre + textPx * 0.35)}
                textAnchor="end"
                fill={mean.mean === null ? paint.soft : paint.ink}
              >
                {numbers[place]!.value}
              </text>
              <text
                x={round(right + 26 + valuePx)}
                y={round(centre + textPx * 0.35)}
                fontWeight={600}
                data-part="letters"
              >
                {numbers[place]!.letters}
              </text>
            </g>
          );
        })}
        <line
          x1={round(zero)}
          x2={round(zero)}
          y1={round(top - textPx * 0.4)}
          y2={bottom}
          stroke={paint.strong}
          strokeWidth={1.5}
        />
      </g>
    ),
  };
}

function valueWords(
  mean: TreatmentBarsProps['means'][number],
  spread: 'standard-error' | 'interval',
): string {
  if (mean.mean === null) return chartText.noValue;
  return spread === 'interval'
    ? chartText.bars.fromTo(mean.mean, mean.low, mean.high)
    : chartText.bars.plusMinus(mean.mean, mean.standardError);
}

function LevelErrorBar({ x, y }: { x: readonly [number, number]; y: number }) {
  const [low, high] = x.map(round) as [number, number];
  const at = round(y);
  return (
    <path
      d={`M${low} ${at - 5}v10M${low} ${at}H${high}M${high} ${at - 5}v10`}
      fill="none"
      stroke={paint.ink}
      strokeWidth={1.5}
      data-part="error-bar"
    />
  );
}
