import type { Checked } from '../trial/fieldProblem.ts';
import type { WeatherDay } from '../trial/weather.ts';
import { type CellReader, cellReader, openTable, type TableProblem } from './trialTablesCells.ts';

/**
 * Bounds outside which a reading is a fault of the logger or of the unit, not weather. Wider than any record known to us
 * (from memory: air -89 to 57 °C, rain of a day 1825 mm).
 */
const AIR_C = [-90, 60] as const;
const SOIL_C = [-50, 70] as const;
const RAIN_MM = [0, 2000] as const;

/** Ten years of days and more. */
const MOST_DAYS = 4000;

const TEMPERATURES = ['air', 'air_least', 'air_most', 'soil'] as const;

const COLUMNS = [
  { name: 'date', required: true },
  ...TEMPERATURES.flatMap((name) => [`${name}_c`, `${name}_f`]).map((name) => ({ name, required: false })),
  { name: 'rain_mm', required: false },
  { name: 'rain_in', required: false },
];

/**
 * Reads daily weather: `date`, and any of `air_c`, `air_least_c`, `air_most_c`, `soil_c`, `rain_mm`, or the same in
 * `.._f` and `rain_in`. Empty cells are days without a reading: never 0.
 *
 * @returns the days in order, or every problem with its row and cell
 */
export function readWeatherTable(text: string): Checked<readonly WeatherDay[], TableProblem> {
  const opened = openTable(text, COLUMNS, MOST_DAYS);
  if (!opened.ok) return opened;
  const problems: TableProblem[] = [];
  const table = opened.value;
  const measured = COLUMNS.slice(1).filter(({ name }) => table.has(name));
  if (measured.length === 0) {
    const found = ['date', ...table.leftAside];
    problems.push({ row: 1, column: 'air_c', met: null, fault: { code: 'column-missing', found } });
  }
  const rowOfDay = new Map<string, number>();
  const days = table.rows.map((row): WeatherDay => {
    const cells = cellReader(row, problems);
    const day = cells.day('date');
    if (row.cell('date') === '') cells.problem('date', { code: 'missing' });
    const first = day === null ? undefined : rowOfDay.get(day);
    if (first !== undefined) cells.problem('date', { code: 'said-before', firstRow: first });
    else if (day !== null) rowOfDay.set(day, row.row);
    const [airC, airLeastC, airMostC, soilC] = TEMPERATURES.map((name) =>
      temperature(cells, name, name === 'soil' ? SOIL_C : AIR_C),
    ) as [number | null, number | null, number | null, number | null];
    if (airLeastC !== null && airMostC !== null && airLeastC > airMostC) {
      const column = table.has('air_most_c') ? 'air_most_c' : 'air_most_f';
      cells.problem(column, { code: 'bounds-crossed', least: airLeastC, most: airMostC });
    }
    return { day: day ?? '', airC, airLeastC, airMostC, soilC, rainMm: rain(cells) };
  });
  if (problems.length > 0) return { ok: false, problems };
  return { ok: true, value: days.sort((a, b) => (a.day < b.day ? -1 : 1)) };
}

function temperature(cells: CellReader, name: string, bounds: readonly [number, number]): number | null {
  const celsius = within(cells, `${name}_c`, bounds, (value) => value);
  return celsius ?? within(cells, `${name}_f`, bounds, (value) => (value - 32) / 1.8);
}

function rain(cells: CellReader): number | null {
  return (
    within(cells, 'rain_mm', RAIN_MM, (value) => value) ??
    within(cells, 'rain_in', RAIN_MM, (value) => value * 25.4)
  );
}

/** The reading in SI units; bounds are told in the unit of the column. */
function within(
  cells: CellReader,
  column: string,
  [least, most]: readonly [number, number],
  toSi: (value: number) => number,
): number | null {
  const written = cells.number(column);
  if (written === null) return null;
  const value = toSi(written);
  const [zero, slope] = [toSi(0), toSi(1) - toSi(0)];
  const inColumn = (bound: number) => Number(((bound - zero) / slope).toPrecision(4));
  if (value < least) cells.problem(column, { code: 'too-small', least: inColumn(least), allowed: true });
  else if (value > most) cells.problem(column, { code: 'too-large', most: inColumn(most), allowed: true });
  else return value;
  return null;
}
