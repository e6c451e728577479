import { dataPackageText as text } from '../text/dataPackage.ts';
import { COVER_METHODS } from './coverTable.ts';

/** One field of a table schema. `unit` is not of the standard, which lets descriptors say more than it knows. */
export interface DataPackageField {
  readonly name: string;
  readonly type: 'string' | 'number' | 'integer' | 'date' | 'datetime';
  readonly description: string;
  readonly unit?: string;
  readonly constraints?: Readonly<Record<string, unknown>>;
}

type Kind = Omit<DataPackageField, 'name' | 'description'>;

const percent: Kind = { type: 'number', unit: '%', constraints: { minimum: 0, maximum: 100 } };
const shareOfPercent: Kind = { type: 'number', unit: '%' };
const count: Kind = { type: 'integer', constraints: { minimum: 0 } };
const number: Kind = { type: 'number' };
const day: Kind = { type: 'date' };
const celsius: Kind = { type: 'number', unit: 'degrees Celsius' };
const pixels: Kind = { type: 'number', unit: 'pixels of the upright photo' };
const days: Kind = { type: 'integer', unit: 'd' };

/** All others are text. */
const KINDS: Readonly<Record<string, Kind>> = {
  quadrat: count,
  treatment: count,
  row: count,
  column: count,
  rating_date: day,
  pixels: count,
  cover_percent: percent,
  cover_low: percent,
  cover_high: percent,
  method: { type: 'string', constraints: { enum: COVER_METHODS } },
  window_before: days,
  window_after: days,
  rate: number,
  cost_per_hectare: number,
  carrier_volume: number,
  pressure: number,
  re_entry_hours: { type: 'number', unit: 'h' },
  done_on: day,
  value: number,
  point: count,
  x_px: pixels,
  y_px: pixels,
  called_at: { type: 'datetime' },
  mask_percent: percent,
  points_percent: percent,
  points_judged: count,
  difference_points: { type: 'number', unit: 'percentage points' },
  subsamples: count,
  n: count,
  mean: shareOfPercent,
  standard_error: shareOfPercent,
  low: shareOfPercent,
  high: shareOfPercent,
  percent_control: shareOfPercent,
  alpha: number,
  f: number,
  p: { type: 'number', constraints: { minimum: 0, maximum: 1 } },
  error_df: count,
  mean_square_error: number,
  least_significant_difference: number,
  honestly_significant_difference: number,
  date: day,
  air_c: celsius,
  air_least_c: celsius,
  air_most_c: celsius,
  soil_c: celsius,
  rain_mm: { type: 'number', unit: 'mm' },
};

/** What a column of a table means, its type and its unit. @throws RangeError for a column nobody described */
export function dataPackageField(table: string, column: string): DataPackageField {
  const factor = /^factor_(.+)$/.exec(column)?.[1];
  const meaning = factor === undefined ? text.columns[column] : text.factor(factor);
  if (meaning === undefined) throw new RangeError(`column ${column} of ${table} has no description`);
  const kind = KINDS[column] ?? { type: 'string' };
  return {
    name: column,
    ...kind,
    description: kind.unit === undefined ? meaning : `${meaning}. Unit: ${kind.unit}`,
  };
}
