import { chartText } from '../../core/text/charts.ts';
import { DayAxis, dayAxisHeight, ValueAxis } from './axes.tsx';
import type { ApplicationMark, TreatmentMean } from './chartTypes.ts';
import type { CoverOverTimeProps } from './coverOverTimeProps.ts';
import type { Drawing, DrawingSize, Mark } from './drawing.ts';
import { ErrorBar } from './ErrorBar.tsx';
import { barOf, nameOf } from './figureWords.ts';
import { linePath } from './linePath.ts';
import { Marker, round } from './Marker.tsx';
import { paint } from './paint.ts';
import { type DayScale, dayScale, valueScale } from './scales.ts';
import { EndLabels, keyHeight, labelColumn, namesFit, TreatmentKey } from './seriesLabels.tsx';
import { textWidth } from './textWidth.ts';
import { treatmentStyle } from './treatmentStyle.ts';
import { WeatherPanel, weatherMarks } from './WeatherPanel.tsx';

/** Greatest distance at which points of one date stand side by side. */
const SIDE_STEP = 5;
/** Marks of applications and weather come after all treatments when walking down. */
const APPLICATION_SERIES = 100_000;
const WEATHER_SERIES = 200_000;

export function drawCoverOverTime(props: CoverOverTimeProps, size: DrawingSize): Drawing {
  const { quantity, treatments, spread = 'standard-error', applications = [], sowingDate = null } = props;
  const { widthPx, textPx } = size;
  const dates = [...props.dates].sort((a, b) => (a.ratingDate < b.ratingDate ? -1 : 1));
  const means = dates.map(({ means }) => new Map(means.map((mean) => [mean.treatment, mean])));
  const full = namesFit(widthPx, treatments.length);
  const days = [
    ...dates.map(({ ratingDate }) => ratingDate),
    ...applications.map(({ date }) => date),
    ...(sowingDate === null ? [] : [sowingDate]),
  ];
  const allDays = days.length > 0 ? days : (props.weather ?? []).map(({ day }) => day);
  if (allDays.length === 0) return { widthPx, heightPx: 40, marks: [], content: <NoData textPx={textPx} /> };

  const left = Math.ceil(textWidth('−100', textPx)) + 12;
  const labelPx = labelColumn(treatments, widthPx, textPx);
  const right = widthPx - labelPx;
  const top = Math.ceil(textPx * 2.2);
  const time = dayScale(allDays, [left + 14, right - 14]);
  // a single day has no course of the weather
  const weather =
    time.firstDay === time.lastDay
      ? []
      : (props.weather ?? []).filter(({ day }) => day >= time.firstDay && day <= time.lastDay);
  const rowsOfApplications = treatments.flatMap((treatment, place) => {
    const own = applications.filter((one) => one.treatment === treatment.treatment);
    return own.length > 0 ? [{ treatment, place, own }] : [];
  });
  const rowPx = Math.ceil(textPx * 1.25);
  const stripPx = rowsOfApplications.length > 0 ? rowsOfApplications.length * rowPx + textPx * 2.2 : 0;
  const weatherPx = weather.length > 0 ? Math.round(textPx * (size.heightPx === null ? 7.5 : 6)) : 0;
  const keyPx = full ? 0 : keyHeight({ treatments, widthPx: widthPx - left, textPx }) + textPx;
  const rest = top + stripPx + weatherPx + dayAxisHeight(textPx) + keyPx;
  const panelPx =
    size.heightPx === null
      ? Math.min(340, Math.max(200, widthPx * 0.42))
      : Math.max(size.heightPx * 0.42, size.heightPx - rest);
  const bottom = top + panelPx;
  const values = dates.flatMap(({ means }) =>
    means.flatMap((mean) => [mean.mean, ...(barOf(mean, spread) ?? [])]),
  );
  const scale = valueScale(values, { pixels: [bottom, top], range: quantity.range ?? 'tight' });
  const narrowest = narrowestGap(dates.map(({ ratingDate }) => time.at(ratingDate)));
  const markerPx = Math.min(5, Math.max(2.25, narrowest * 0.22));
  const shift = sideShift(narrowest, treatments.length);

  const lines = treatments.map((treatment, place) => {
    const points = dates.map(({ ratingDate }, step) => {
      const mean = means[step]!.get(treatment.treatment);
      if (!mean || mean.mean === null) return null;
      return { mean, ratingDate, step, x: time.at(ratingDate) + shift(place), y: scale.at(mean.mean) };
    });
    return { treatment, place, points, look: treatmentStyle(place) };
  });
  const marks: Mark[] = lines.flatMap(({ treatment, place, points }) =>
    points.flatMap((point) =>
      point
        ? [
            {
              x: point.x,
              y: point.y,
              series: place,
              step: point.step,
              says: chartText.meanWords(
                spoken(point.mean, nameOf(treatment)),
                quantity.unit,
                point.ratingDate,
              ),
            },
          ]
        : [],
    ),
  );
  const stripTop = bottom + textPx * 1.8;
  const weatherTop = bottom + stripPx + textPx * 1.8;
  const axisY = bottom + stripPx + weatherPx;
  rowsOfApplications.forEach(({ treatment, place, own }, row) => {
    own.forEach((one, step) => {
      marks.push({
        x: time.at(one.date),
        y: stripTop + (row + 0.5) * rowPx,
        series: APPLICATION_SERIES + place,
        step,
        says: chartText.overTime.applicationWords(nameOf(treatment), one.name, one.date, one.done),
      });
    });
  });
  if (weather.length > 0)
    marks.push(
      ...weatherMarks({
        weather,
        time,
        y: [weatherTop, axisY],
        textPx,
        series: WEATHER_SERIES,
        x: [left, right],
      }),
    );

  return {
    widthPx,
    heightPx: Math.ceil(axisY + dayAxisHeight(textPx) + keyPx),
    marks,
    content: (
      <>
        <text x={0} y={textPx} fontSize={textPx} fontWeight={600} fill={paint.ink}>
          {chartText.axis(quantity.name, quantity.unit)}
        </text>
        <g stroke={paint.line} strokeDasharray="1 3">
          {dates.map(({ ratingDate }) => (
            <line
              key={ratingDate}
              x1={round(time.at(ratingDate))}
              x2={round(time.at(ratingDate))}
              y1={top}
              y2={axisY}
            />
          ))}
        </g>
        <ValueAxis scale={scale} x={[left, right]} textPx={textPx} />
        {sowingDate !== null && <Sown x={time.at(sowingDate)} y={[top, bottom]} textPx={textPx} />}
        {lines.map(({ treatment, points, look }) => (
          <path
            key={treatment.treatment}
            d={linePath(points.map((point) => point && [point.x, point.y]))}
            fill="none"
            stroke={look.colour}
            strokeWidth={2}
            strokeDasharray={look.dash}
            strokeLinejoin="round"
            data-part="line"
          />
        ))}
        {lines.map(({ treatment, points, look }) => (
          <g key={treatment.treatment} data-treatment={treatment.treatment}>
            {points.map((point) => {
              const bar = point && barOf(point.mean, spread);
              return (
                bar && (
                  <ErrorBar
                    key={point.ratingDate}
                    x={point.x}
                    y={[scale.at(bar[0]), scale.at(bar[1])]}
                    colour={look.colour}
                    cap={markerPx * 0.7}
                  />
                )
              );
            })}
            {points.map(
              (point) =>
                point && (
                  <Marker key={point.ratingDate} x={point.x} y={point.y} look={look} radius={markerPx} />
                ),
            )}
          </g>
        ))}
        <EndLabels
          treatments={treatments}
          ends={lines.map(({ points }) => {
            const last = points.filter((point) => point !== null).at(-1);
            return last ? [last.x, last.y] : null;
          })}
          x={right}
          widthPx={labelPx}
          full={full}
          y={[top, bottom]}
          textPx={textPx}
        />
        {rowsOfApplications.length > 0 && (
          <ApplicationStrip rows={rowsOfApplications} {...{ time, stripTop, rowPx, textPx, left, right }} />
        )}
        {weather.length > 0 && (
          <WeatherPanel
            weather={weather}
            time={time}
            y={[weatherTop, axisY]}
            x={[left, right]}
            textPx={textPx}
          />
        )}
        <line x1={left} x2={right} y1={axisY} y2={axisY} stroke={paint.strong} />
        <DayAxis
          scale={time}
          days={dates.length > 0 ? dates.map(({ ratingDate }) => ratingDate) : allDays}
          y={axisY}
          textPx={textPx}
          x={[0, widthPx]}
        />
        {!full && (
          <TreatmentKey
            treatments={treatments}
            widthPx={widthPx - left}
            textPx={textPx}
            x={left}
            y={axisY + dayAxisHeight(textPx) + textPx * 0.5}
          />
        )}
      </>
    ),
  };
}

export const spoken = (mean: TreatmentMean, name: string) => ({ ...mean, name });

/** Least distance of two dates in pixels; 100 where there is one date. */
function narrowestGap(at: readonly number[]): number {
  return Math.min(100, ...at.slice(1).map((x, index) => x - at[index]!));
}

/** How far a treatment's points stand beside the date, so that bars do not cover one another. */
function sideShift(narrowest: number, treatments: number): (place: number) => number {
  const step = treatments > 1 ? Math.min(SIDE_STEP, (narrowest * 0.6) / (treatments - 1)) : 0;
  return (place) => (place - (treatments - 1) / 2) * step;
}

interface ApplicationStripProps {
  readonly rows: readonly {
    readonly treatment: { readonly treatment: string };
    readonly place: number;
    readonly own: readonly ApplicationMark[];
  }[];
  readonly time: DayScale;
  readonly stripTop: number;
  readonly rowPx: number;
  readonly textPx: number;
  readonly left: number;
  readonly right: number;
}

/** A row for each treatment with a mark on each day it was applied to. */
function ApplicationStrip({ rows, time, stripTop, rowPx, textPx, left, right }: ApplicationStripProps) {
  return (
    <g fontSize={textPx * 0.92} fill={paint.soft}>
      <text x={0} y={stripTop - textPx * 0.25}>
        {chartText.overTime.applications}
      </text>
      {rows.map(({ treatment, place, own }, row) => {
        const y = stripTop + (row + 0.5) * rowPx;
        const { colour } = treatmentStyle(place);
        return (
          <g key={treatment.treatment}>
            <text x={left - 7} y={round(y + textPx * 0.33)} textAnchor="end" fill={paint.ink}>
              {treatment.treatment}
            </text>
            <line x1={left} x2={right} y1={round(y)} y2={round(y)} stroke={paint.line} />
            {own.map((one) => (
              <Marker
                key={`${one.date} ${one.name}`}
                x={time.at(one.date)}
                y={y}
                radius={4.5}
                look={{ colour, shape: 'triangle-down', filled: one.done }}
              />
            ))}
          </g>
        );
      })}
    </g>
  );
}

function Sown({ x, y, textPx }: { x: number; y: readonly [number, number]; textPx: number }) {
  return (
    <g>
      <line x1={round(x)} x2={round(x)} y1={y[0]} y2={y[1]} stroke={paint.strong} strokeDasharray="4 3" />
      <text x={round(x + 5)} y={y[0] + textPx} fontSize={textPx * 0.92} fill={paint.soft}>
        {chartText.overTime.sown}
      </text>
    </g>
  );
}

function NoData({ textPx }: { textPx: number }) {
  return (
    <text x={0} y={textPx * 1.5} fontSize={textPx} fill={paint.soft}>
      {chartText.noValue}
    </text>
  );
}
