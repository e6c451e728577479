import { addDays, type CalendarDay } from './calendarDay.ts';

/** Weather of one day; null where it was not measured. */
export interface WeatherDay {
  readonly day: CalendarDay;
  /** Mean air temperature. */
  readonly airC: number | null;
  readonly airLeastC: number | null;
  readonly airMostC: number | null;
  readonly soilC: number | null;
  readonly rainMm: number | null;
}

/**
 * Mean temperature of the days up to and with a day.
 *
 * Air without a daily mean is taken as the middle of its least and most (common practice, no source).
 *
 * @returns null unless every one of the days is known: a mean of fewer days would be another figure
 */
export function meanTemperature(
  weather: readonly WeatherDay[],
  of: 'air' | 'soil',
  lastDay: CalendarDay,
  days: number,
): number | null {
  const byDay = new Map(weather.map((row) => [row.day, row]));
  let sum = 0;
  for (let back = 0; back < days; back++) {
    const row = byDay.get(addDays(lastDay, -back));
    const temperature = row ? temperatureOf(row, of) : null;
    if (temperature === null) return null;
    sum += temperature;
  }
  return sum / days;
}

function temperatureOf(row: WeatherDay, of: 'air' | 'soil'): number | null {
  if (of === 'soil') return row.soilC;
  if (row.airC !== null) return row.airC;
  return row.airLeastC === null || row.airMostC === null ? null : (row.airLeastC + row.airMostC) / 2;
}
