import { type CalendarDay, isCalendarDay } from './calendarDay.ts';
import { checkCharacter } from './checkCharacter.ts';
import { plotKey } from './plot.ts';
import { type Random, randomBelow } from './repeatableRandom.ts';

/** What a plot's label says. */
export interface PlotLabel {
  /** The trial's code, six letters and digits. */
  readonly trial: string;
  readonly plot: string;
  /** Place of the frame in the plot; null where the label stands for the whole plot. */
  readonly place: number | null;
  /** For labels that are printed anew for each rating; null on the usual label, which lasts the season. */
  readonly ratingDate: CalendarDay | null;
}

export type LabelProblem =
  | { readonly code: 'not-a-label'; readonly text: string }
  | { readonly code: 'label-newer'; readonly version: number }
  | { readonly code: 'label-damaged'; readonly text: string }
  | { readonly code: 'label-of-other-trial'; readonly trial: string; readonly plot: string }
  | { readonly code: 'label-of-unknown-plot'; readonly plot: string };

export type LabelReading =
  | { readonly ok: true; readonly label: PlotLabel }
  | { readonly ok: false; readonly problem: LabelProblem };

const VERSION = 1;

/** Letters and digits of trial codes: those of Crockford's base 32, without I, L, O and U that are misread. */
const CODE_CHARACTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

/** A code for a new trial. Two trials of a programme share one with a chance of 1 in 10^9. */
export function newTrialCode(random: Random): string {
  return Array.from({ length: 6 }, () => CODE_CHARACTERS[randomBelow(CODE_CHARACTERS.length, random)]).join(
    '',
  );
}

/**
 * The text of a label's QR code: "SB1:K7QF3M:101:C", with place and date "SB1:K7QF3M:101:P2:D20270412:C".
 *
 * Project's letters and version, trial, plot, then what is known of place and date, and a check character over it all. Only
 * capitals, digits, ":", "-" and ".": a QR code holds these in its compact alphanumeric mode.
 */
export function writePlotLabel(label: PlotLabel): string {
  const parts = [`SB${VERSION}`, label.trial, plotKey(label.plot)];
  if (label.place !== null) parts.push(`P${label.place}`);
  if (label.ratingDate !== null) parts.push(`D${label.ratingDate.replaceAll('-', '')}`);
  const text = parts.join(':');
  return `${text}:${checkCharacter(text)}`;
}

/** Reads the text of a QR code found in a photo, whatever made it. */
export function parsePlotLabel(text: string): LabelReading {
  const written = text.trim().toUpperCase();
  const refuse = (problem: LabelProblem): LabelReading => ({ ok: false, problem });
  const head = /^SB(\d{1,3}):/.exec(written);
  if (!head) return refuse({ code: 'not-a-label', text });
  if (Number(head[1]) > VERSION) return refuse({ code: 'label-newer', version: Number(head[1]) });
  const body = written.slice(0, -2);
  const parts =
    /^SB1:([0-9A-HJKMNP-TV-Z]{6}):([A-Z0-9][A-Z0-9.-]{0,11})(?::P([1-9]\d?))?(?::D(\d{4})(\d{2})(\d{2}))?$/.exec(
      body,
    );
  if (!parts || written.slice(-2) !== `:${checkCharacter(body)}`) {
    return refuse({ code: 'label-damaged', text });
  }
  const [, trial, plot, place, year, month, day] = parts;
  const ratingDate = year === undefined ? null : `${year}-${month}-${day}`;
  if (ratingDate !== null && !isCalendarDay(ratingDate)) return refuse({ code: 'label-damaged', text });
  const label = { trial: trial!, plot: plot!, place: place === undefined ? null : Number(place), ratingDate };
  return { ok: true, label };
}

/**
 * Reads a label for one trial: a label of another trial, or of a plot that this one does not have, is refused.
 *
 * @param plots names of the trial's plots; the answer spells the plot as it stands here
 */
export function readPlotLabel(text: string, trial: string, plots: readonly string[]): LabelReading {
  const reading = parsePlotLabel(text);
  if (!reading.ok) return reading;
  const { label } = reading;
  if (label.trial !== trial) {
    return { ok: false, problem: { code: 'label-of-other-trial', trial: label.trial, plot: label.plot } };
  }
  const plot = plots.find((name) => plotKey(name) === label.plot);
  if (plot === undefined) {
    return { ok: false, problem: { code: 'label-of-unknown-plot', plot: label.plot } };
  }
  return { ok: true, label: { ...label, plot } };
}
