import { daysBetween } from '../trial/calendarDay.ts';
import { type Note, note } from './note.ts';
import { compareNames } from './plotObservation.ts';

/** When a treatment's mean first passed the threshold, as a bracket of rating dates. */
export interface LengthOfControl {
  readonly treatment: string;
  /** Last date at or below the threshold before it was passed; null when it was passed on the first date. */
  readonly heldUntil: string | null;
  /** First date above the threshold; null when it never was (control lasted at least until `heldUntil`). */
  readonly passedOn: string | null;
  /** The same in days from the day counted from. */
  readonly heldDays: number | null;
  readonly passedDays: number | null;
}

export interface LengthOfControlTable {
  readonly threshold: number;
  /** The day the days are counted from: sowing or a chosen application. */
  readonly countedFrom: string;
  /** Empty where the untreated control never passed the threshold: nothing then shows that control was needed. */
  readonly treatments: readonly LengthOfControl[];
  readonly notes: readonly Note[];
}

/**
 * Length of control of each treatment, always as a bracket: between two ratings nobody looked.
 *
 * @param dates in order, each with treatment means (a treatment without a mean on a date is left out on that date)
 * @param threshold value above which control counts as lost
 * @param countedFrom YYYY-MM-DD
 */
export function lengthOfControl(
  dates: readonly { readonly ratingDate: string; readonly means: ReadonlyMap<string, number> }[],
  options: { readonly control: string; readonly threshold: number; readonly countedFrom: string },
): LengthOfControlTable {
  const { control, threshold, countedFrom } = options;
  const counted = dates.filter(({ ratingDate }) => daysBetween(countedFrom, ratingDate) >= 0);
  const head = { threshold, countedFrom };
  const controlMeans = counted.flatMap(({ means }) => means.get(control) ?? []);
  if (controlMeans.length === 0)
    return { ...head, treatments: [], notes: [note('control-missing', { control, treatments: [] })] };
  if (!controlMeans.some((mean) => mean > threshold)) {
    const highest = Math.max(...controlMeans);
    return {
      ...head,
      treatments: [],
      notes: [note('threshold-not-reached', { control, threshold, highest })],
    };
  }
  const names = [...new Set(counted.flatMap(({ means }) => [...means.keys()]))].sort(compareNames);
  const crossedAgain: string[] = [];
  const treatments = names.map((treatment): LengthOfControl => {
    const series = counted.flatMap(({ ratingDate, means }) => {
      const mean = means.get(treatment);
      return mean === undefined ? [] : [{ ratingDate, mean }];
    });
    const passed = series.findIndex(({ mean }) => mean > threshold);
    if (passed >= 0 && series.slice(passed).some(({ mean }) => mean <= threshold))
      crossedAgain.push(treatment);
    const heldUntil = (passed < 0 ? series.at(-1) : series[passed - 1])?.ratingDate ?? null;
    const passedOn = passed < 0 ? null : series[passed]!.ratingDate;
    return {
      treatment,
      heldUntil,
      passedOn,
      heldDays: heldUntil === null ? null : daysBetween(countedFrom, heldUntil),
      passedDays: passedOn === null ? null : daysBetween(countedFrom, passedOn),
    };
  });
  const notes = crossedAgain.length > 0 ? [note('crossed-again', { treatments: crossedAgain })] : [];
  return { ...head, treatments, notes };
}
