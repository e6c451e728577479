import { chartText } from '../../core/text/charts.ts';
import { addDays } from '../../core/trial/calendarDay.ts';
import type { WeatherDay } from '../../core/trial/weather.ts';
import type { Mark } from './drawing.ts';
import { linePath } from './linePath.ts';
import { round } from './Marker.tsx';
import { paint } from './paint.ts';
import { type DayScale, valueScale } from './scales.ts';

interface WeatherPanelProps {
  readonly weather: readonly WeatherDay[];
  readonly time: DayScale;
  readonly y: readonly [top: number, bottom: number];
  readonly x: readonly [left: number, right: number];
  readonly textPx: number;
}

/** Daily mean temperatures as lines, rain as bars from the bottom. A day that is missing is a gap. */
export function WeatherPanel({ weather, time, y, x, textPx }: WeatherPanelProps) {
  const { days, temperature, rain } = layout({ weather, time, y });
  const small = textPx * 0.92;
  const wet = weather.some(({ rainMm }) => rainMm !== null);
  const lineOf = (of: (day: WeatherDay) => number | null) =>
    linePath(
      days.map((day) => {
        const value = day && of(day);
        return day && value !== null ? [time.at(day.day), temperature.at(value!)] : null;
      }),
    );
  const words = chartText.overTime;
  const names = [
    { name: words.air, dash: undefined, there: weather.some(({ airC }) => airC !== null) },
    { name: words.soil, dash: '4 2.500', there: weather.some(({ soilC }) => soilC !== null) },
  ].filter(({ there }) => there);
  const barPx = Math.max(1, Math.min(6, ((x[1] - x[0]) / Math.max(1, days.length)) * 0.7));
  return (
    <g fontSize={small} fill={paint.soft}>
      {temperature.ticks.map(({ value, words }) => (
        <g key={value}>
          <line
            x1={x[0]}
            x2={x[1]}
            y1={round(temperature.at(value))}
            y2={round(temperature.at(value))}
            stroke={paint.line}
          />
          <text x={x[0] - 7} y={round(temperature.at(value) + small * 0.35)} textAnchor="end">
            {words}
          </text>
        </g>
      ))}
      {wet && (
        <g fill={paint.rain} data-part="rain">
          {weather.map(({ day, rainMm }) =>
            rainMm === null || rainMm <= 0 ? null : (
              <rect
                key={day}
                x={round(time.at(day) - barPx / 2)}
                width={round(barPx)}
                y={round(rain.at(rainMm))}
                height={round(Math.max(0, y[1] - rain.at(rainMm)))}
              />
            ),
          )}
        </g>
      )}
      <path
        d={lineOf(({ airC }) => airC)}
        fill="none"
        stroke={paint.ink}
        strokeWidth={1.25}
        data-part="air"
      />
      <path
        d={lineOf(({ soilC }) => soilC)}
        fill="none"
        stroke={paint.soft}
        strokeWidth={1.5}
        strokeDasharray="4 2.500"
      />
      {wet && (
        <g>
          {rain.ticks.map(({ value, words }) => (
            <text key={value} x={x[1] + 6} y={round(rain.at(value) + small * 0.35)}>
              {words}
            </text>
          ))}
        </g>
      )}
      <text x={0} y={y[0] - textPx * 0.6}>
        {words.weather}, {words.degrees}
      </text>
      <WeatherKey names={names} wet={wet} x={x} y={y[0] - textPx * 0.6} textPx={small} />
    </g>
  );
}

interface WeatherKeyProps {
  readonly names: readonly { readonly name: string; readonly dash: string | undefined }[];
  readonly wet: boolean;
  readonly x: readonly [number, number];
  readonly y: number;
  readonly textPx: number;
}

function WeatherKey({ names, wet, x, y, textPx }: WeatherKeyProps) {
  const step = textPx * 5.2;
  const from = x[0] + textPx * 7.5;
  const level = y - textPx * 0.35;
  return (
    <g>
      {names.map(({ name, dash }, index) => (
        <g key={name}>
          <line
            x1={round(from + index * step)}
            x2={round(from + index * step + 18)}
            y1={level}
            y2={level}
            stroke={dash ? paint.soft : paint.ink}
            strokeWidth={1.5}
            strokeDasharray={dash}
          />
          <text x={round(from + index * step + 23)} y={y}>
            {name}
          </text>
        </g>
      ))}
      {wet && (
        <>
          <rect
            x={round(from + names.length * step)}
            y={round(y - textPx * 0.75)}
            width={6}
            height={round(textPx * 0.8)}
            fill={paint.rain}
          />
          <text x={round(from + names.length * step + 11)} y={y}>
            {chartText.overTime.rain}, {chartText.overTime.millimetres}
          </text>
        </>
      )}
    </g>
  );
}

/** A mark a day, at the height of its air temperature, or on the ground where that is not known. */
export function weatherMarks(props: WeatherPanelProps & { readonly series: number }): Mark[] {
  const { temperature } = layout(props);
  return props.weather.map(({ day, airC, soilC, rainMm }, step) => ({
    x: props.time.at(day),
    y: airC === null ? props.y[1] : temperature.at(airC),
    series: props.series,
    step,
    says: chartText.overTime.weatherWords(day, airC, soilC, rainMm),
  }));
}

function layout({ weather, y }: Pick<WeatherPanelProps, 'weather' | 'time' | 'y'>) {
  const byDay = new Map(weather.map((day) => [day.day, day]));
  const sorted = [...byDay.keys()].sort();
  const days: (WeatherDay | null)[] = [];
  for (let day = sorted[0]!; day <= sorted.at(-1)!; day = addDays(day, 1)) days.push(byDay.get(day) ?? null);
  return {
    days,
    temperature: valueScale(
      weather.flatMap(({ airC, soilC }) => [airC, soilC]),
      { pixels: [y[1], y[0]], apartPx: 26 },
    ),
    rain: valueScale(
      weather.map(({ rainMm }) => rainMm),
      { pixels: [y[1], y[0]], apartPx: 26 },
    ),
  };
}
