import { catalogue } from './catalogue.ts';
import { formatCount, formatDay, formatDayAndMonth, formatDecimals, formatQuantity } from './format.ts';
import { RESULTS_CAUTION } from './statisticsCommands.ts';
import { EXPERIMENTAL_USE, listed } from './trial.ts';
import { usLength, usTemperature, withUsUnits } from './units.ts';

export { formatDecimals } from './format.ts';

/** A tick of a time axis: "12 Apr"; its year stands once on the axis. */
export const formatDayTick = formatDayAndMonth;

/** A value as charts and their tables show it: one decimal. */
export const formatValue = (value: number): string => formatDecimals(value, 1);

const number = (value: number | null): string => (value === null ? chartText.noValue : formatValue(value));
const withUnit = (value: number | null, unit: string): string =>
  value === null ? chartText.noValue : unit ? `${formatValue(value)} ${unit}` : formatValue(value);
const degrees = (celsius: number | null): string =>
  withUsUnits(withUnit(celsius, '°C'), celsius === null ? null : usTemperature(celsius));
const plots = (n: number) => formatQuantity(n, 'plot', 'plots');

/** A mean with its bar, in words. */
interface SpokenMean {
  readonly name: string;
  readonly mean: number | null;
  readonly standardError: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly n: number;
  readonly letters: string | null;
}

/** What charts say. */
export const chartText = catalogue('chartText', {
  noValue: 'no value',
  showTable: 'Show as table',
  /** Read to those who come to a picture by keyboard. */
  keys: (count: number) =>
    `Picture with ${formatQuantity(count, 'value', 'values')}. Arrow keys go from value to value, Home and End to the first and last.`,
  hint: 'Arrow keys or a pointer show single values.',
  save: 'Save picture',
  saveAs: {
    svg: 'SVG',
    print: 'PNG for print, 170 mm',
    slide: 'PNG for a slide, 16:9',
  },
  saveLabel: (what: string, title: string) => `${what}: ${title}`,
  saveFailed: (reason: string) =>
    `The picture could not be saved: ${reason}. Try SVG, or make room in memory by closing other tabs.`,
  caution: RESULTS_CAUTION,
  experimental: EXPERIMENTAL_USE,

  treatment: 'Treatment',
  treatmentName: (treatment: string, label: string) =>
    label === '' || label === treatment ? treatment : `${treatment} ${label}`,
  day: (day: string) => formatDay(day, 'short'),
  axis: (name: string, unit: string) => (unit ? `${name}, ${unit}` : name),

  columns: {
    ratingDate: 'Rating date',
    mean: (unit: string) => (unit ? `Mean, ${unit}` : 'Mean'),
    standardError: 'Standard error',
    low: 'Lower bound',
    high: 'Upper bound',
    n: 'Plots',
    letters: 'Letters',
    plot: 'Plot',
    block: 'Block',
    row: 'Row',
    column: 'Column',
    value: (unit: string) => (unit ? `Value, ${unit}` : 'Value'),
    fitted: 'Fitted value',
    residual: 'Residual',
    quantile: 'Normal quantile',
    meanOfTwo: (unit: string) => `Mean of both, ${unit}`,
    difference: (unit: string) => `Difference, ${unit}`,
    item: 'Photo or plot',
    cover: 'Cover',
  },

  /** Bars round means, as the caption says it. */
  spread: {
    'standard-error': 'Bars: mean ± standard error.',
    interval: (percent: number) => `Bars: ${formatCount(percent)} % interval of the mean.`,
    none: 'No error bars: no standard error could be computed.',
    some: (names: readonly string[]) => `No error bar: ${listed(names)} (no standard error).`,
  },
  replicates: (fewest: number, most: number, manyDates: boolean) =>
    `n = ${fewest === most ? plots(most) : `${formatCount(fewest)} to ${plots(most)}`} a treatment${manyDates ? ' and date' : ''}.`,
  single: 'n = 1 plot a treatment: how much plots differ is unknown, so there are no bars.',
  gaps: 'Gaps are values that were not rated or could not be computed.',
  letters: 'Treatments with a letter in common were not shown to differ.',
  lettersMissing: 'No letters: none were given by the analysis.',

  meanWords: (mean: SpokenMean, unit: string, day: string | null) => {
    const head = day === null ? mean.name : `${mean.name}, ${formatDay(day, 'short')}`;
    if (mean.mean === null) return `${head}: ${chartText.noValue}.`;
    const parts = [withUnit(mean.mean, unit)];
    if (mean.standardError !== null) parts.push(`standard error ${formatValue(mean.standardError)}`);
    if (mean.low !== null && mean.high !== null)
      parts.push(`interval ${formatValue(mean.low)} to ${formatValue(mean.high)}`);
    parts.push(plots(mean.n));
    if (mean.letters !== null && mean.letters !== '') parts.push(`letters ${mean.letters}`);
    return `${head}: ${parts.join(', ')}.`;
  },

  overTime: {
    caption: (name: string) => `${name}, mean of each treatment on each rating date.`,
    neverRated: (names: readonly string[]) => `No value on any date: ${listed(names)}.`,
    applications: 'Applications',
    applied: 'Filled marks: done; open marks: planned.',
    applicationWords: (name: string, what: string, day: string, done: boolean) =>
      `${name}: ${what}, ${done ? 'done' : 'planned for'} ${formatDay(day, 'short')}.`,
    weather: 'Weather',
    air: 'Air',
    soil: 'Soil',
    rain: 'Rain',
    degrees: '°C',
    millimetres: 'mm a day',
    weatherCaption: 'Below: daily mean temperature of air and soil, and rain.',
    sown: 'sown',
    sideBySide: 'Points of one date stand side by side, so that bars do not cover one another.',
    weatherWords: (day: string, air: number | null, soil: number | null, rain: number | null) =>
      `${formatDay(day, 'short')}: air ${degrees(air)}, soil ${degrees(soil)}, rain ${withUsUnits(withUnit(rain, 'mm'), rain === null ? null : usLength(rain))}.`,
  },

  bars: {
    caption: (name: string, day: string | null) =>
      day === null
        ? `${name}, mean of each treatment.`
        : `${name} on ${formatDay(day)}, mean of each treatment.`,
    plusMinus: (mean: number, error: number | null) =>
      error === null ? formatValue(mean) : `${formatValue(mean)} ± ${formatValue(error)}`,
    fromTo: (mean: number, low: number | null, high: number | null) =>
      low === null || high === null
        ? formatValue(mean)
        : `${formatValue(mean)} (${formatValue(low)} to ${formatValue(high)})`,
  },

  map: {
    caption: (name: string, day: string) =>
      `${name} on ${formatDay(day)} by plot, as the plots lie; row 1 is nearest.`,
    inPlot:
      'In each plot its value; where there is room, its name on the left and its treatment on the right.',
    hatched: (count: number) => `Hatched: not rated (${plots(count)}).`,
    rated: (count: number) => `n = ${plots(count)}.`,
    words: (plot: string, treatment: string, block: string | null, value: number | null, unit: string) =>
      `Plot ${plot}, treatment ${treatment}${block === null ? '' : `, block ${block}`}: ${value === null ? 'not rated' : withUnit(value, unit)}.`,
  },

  plotLines: {
    caption: (name: string) => `${name}: each plot (thin) and the mean of its treatment (thick).`,
    plotWords: (plot: string, day: string, value: number | null, unit: string) =>
      `Plot ${plot}, ${formatDay(day, 'short')}: ${withUnit(value, unit)}.`,
  },

  cost: {
    caption: (name: string, day: string) =>
      `${name} on ${formatDay(day)} against the cost of each programme.`,
    axis: (currency: string) => `Cost, ${currency} a hectare`,
    unknown: (names: readonly string[]) => `Not drawn, cost or cover unknown: ${listed(names)}.`,
    words: (name: string, cost: string, rest: string) => `${name}: cost ${cost}; ${rest}`,
    value: (cost: number) => formatCount(cost),
  },

  residuals: {
    fittedCaption:
      'Residual of each plot against its fitted value. A fan or a bend speaks against the analysis.',
    quantileCaption:
      'Residuals in order against the quantiles of a normal distribution. Points along the line look normal.',
    n: (n: number) => `n = ${plots(n)}.`,
    words: (plot: string, treatment: string, fitted: string, residual: string) =>
      `Plot ${plot}, treatment ${treatment}: fitted ${fitted}, residual ${residual}.`,
    quantileWords: (plot: string, treatment: string, quantile: string, residual: string) =>
      `Plot ${plot}, treatment ${treatment}: normal quantile ${quantile}, residual ${residual}.`,
  },

  agreement: {
    caption: (a: string, b: string) => `${a} less ${b}, against the mean of both.`,
    bands: 'Lines: mean difference and limits of agreement; bands: their 95 % intervals.',
    noLimits: 'No limits of agreement: fewer than two pairs.',
    n: (n: number) => `n = ${formatQuantity(n, 'pair', 'pairs')}.`,
    axis: (a: string, b: string, unit: string) => `${a} less ${b}, ${unit}`,
    meanAxis: (unit: string) => `Mean of both, ${unit}`,
    meanDifference: 'Mean difference',
    upper: 'Upper limit',
    lower: 'Lower limit',
    bounds: (value: number, low: number, high: number) =>
      `${formatValue(value)} (${formatValue(low)} to ${formatValue(high)})`,
    words: (label: string, mean: number, difference: number, unit: string, unitOfDifference: string) =>
      `${label}: difference ${withUnit(difference, unitOfDifference)}, mean of both ${withUnit(mean, unit)}.`,
    points: 'percentage points',
  },

  matrix: {
    caption: 'Photos by plot and rating date.',
    noPhoto: 'no photo',
    tooMany: (met: number, most: number) =>
      `a picture holds up to ${formatCount(most)} photos, this one would have ${formatCount(met)}; show fewer plots or dates`,
    cell: (plot: string, day: string, words: string) => `Plot ${plot}, ${formatDay(day, 'short')}: ${words}`,
    treatment: (treatment: string) => `Treatment ${treatment}`,
  },

  pair: {
    caption: (block: string | null, day: string) =>
      block === null
        ? `Two plots on ${formatDay(day)}.`
        : `Two plots of block ${block} on ${formatDay(day)}.`,
    oneScale: 'Both at one scale.',
    noScale: 'Scale not known, so sizes cannot be compared.',
    plotAndWords: (plot: string, words: string) => `Plot ${plot}: ${words}`,
    bar: (millimetres: number) =>
      millimetres >= 1000 ? `${formatValue(millimetres / 1000)} m` : `${formatCount(millimetres)} mm`,
  },

  number,
  /** A number of the analysis, whose scale may be a fine one: three significant digits. */
  fine: (value: number) => String(Number(value.toPrecision(3))).replace('-', '−'),
});
