import type { CalendarDay } from '../../core/trial/calendarDay.ts';

/** A treatment as charts name it. Its place in the list a chart is given decides colour, marker and dash. */
export interface ChartTreatment {
  /** Its number (or code), as in the plan. */
  readonly treatment: string;
  /** Its name without the number; equal to the number where it has none. */
  readonly label: string;
}

/**
 * Mean of a treatment on one date, as the statistics made it: charts compute none of these. Null is a value that could not be
 * computed or was not rated, and is drawn as a gap.
 */
export interface TreatmentMean extends ChartTreatment {
  /** On the scale of the response, e.g. percent 0..100. */
  readonly mean: number | null;
  readonly standardError: number | null;
  /** Bounds of the interval of the mean. */
  readonly low: number | null;
  readonly high: number | null;
  /** Plots with a value. */
  readonly n: number;
  /** Mean groups; null where none are given. */
  readonly letters: string | null;
}

/** What bars round a mean show. */
export type Spread = 'standard-error' | 'interval';

/** What is measured, for axes and tables. */
export interface Quantity {
  /** e.g. "Weedy grass cover". */
  readonly name: string;
  /** Unit behind numbers, e.g. "%"; empty where there is none (a score). */
  readonly unit: string;
  /** `percent` draws 0..100; `tight` as far as the data go, with 0 in sight. @default 'tight' */
  readonly range?: 'percent' | 'tight';
}

/** Words that every chart takes from the screen. */
export interface ChartWords {
  readonly title: string;
  /** Sentences below what the chart says of itself (why letters are missing, what was left out). @default none */
  readonly remarks?: readonly string[];
  /** Whether a use shown is experimental: then the picture says so. @default false */
  readonly experimental?: boolean;
  /** Name of exported files, without extension. */
  readonly fileName: string;
  /** Level of the heading. @default 3 */
  readonly headingLevel?: 2 | 3 | 4;
  /** Whether the table starts open, as in a report. @default false */
  readonly withTable?: boolean;
}

/** An application to a treatment, on the day it was done or is planned for. */
export interface ApplicationMark {
  readonly treatment: string;
  readonly date: CalendarDay;
  /** What was applied, in the user's words. */
  readonly name: string;
  readonly done: boolean;
}

/** A value of one plot on one date; null where it was not rated. */
export interface PlotValue {
  readonly plot: string;
  readonly treatment: string;
  readonly block: string | null;
  readonly value: number | null;
}
