import { type CalendarDay, dayNumber } from './calendarDay.ts';
import type { NameProblem, NameReader } from './fileNamePattern.ts';
import { readLocalTime } from './localTime.ts';
import { type LabelProblem, type PlotLabel, readPlotLabel } from './plotLabel.ts';

/** A photo that is looking for its plot, with what could be read of it. */
export interface PhotoToAssign {
  readonly photo: string;
  readonly fileName: string;
  /** Exif DateTimeOriginal as written; null where there is none. */
  readonly captureTime: string | null;
  /** How far the camera's clock was ahead of UTC (Exif OffsetTimeOriginal), minutes; null where it does not say. */
  readonly utcOffsetMinutes: number | null;
  /** What tells one camera from another, such as maker and model; null where unknown. */
  readonly device: string | null;
  /** Texts of all QR codes found in the photo. */
  readonly labelTexts: readonly string[];
  /** Hash of the file's bytes; null where not worked out. */
  readonly sha256: string | null;
}

/** What the photo itself says, before its neighbours are asked. */
export interface PhotoEvidence {
  readonly input: PhotoToAssign;
  /** Labels of this trial, one for each different plot. */
  readonly labels: readonly PlotLabel[];
  readonly labelProblems: readonly LabelProblem[];
  readonly named: {
    readonly pattern: string;
    readonly plot: string | null;
    readonly place: number | null;
  } | null;
  readonly nameProblem: NameProblem | null;
  readonly nameDate: CalendarDay | null;
  /** The day on the camera's clock. */
  readonly captureDay: CalendarDay | null;
  readonly captureTimeUnreadable: boolean;
  /** Seconds on the camera's clock, from 1970-01-01 local time: for order and gaps only. */
  readonly clockS: number | null;
  /** Text before the number at the end of the file name, and the number: what cameras count up. */
  readonly counter: { readonly prefix: string; readonly number: number } | null;
}

export function photoEvidence(
  input: PhotoToAssign,
  trialCode: string,
  plots: readonly string[],
  names: NameReader,
): PhotoEvidence {
  const labels = new Map<string, PlotLabel>();
  const labelProblems: LabelProblem[] = [];
  for (const text of input.labelTexts) {
    const reading = readPlotLabel(text, trialCode, plots);
    if (reading.ok) labels.set(`${reading.label.plot}/${reading.label.place}`, reading.label);
    // Codes of other makers lie about on bottles and signs: they say nothing about the plot.
    else if (reading.problem.code !== 'not-a-label') labelProblems.push(reading.problem);
  }
  const name = names.read(input.fileName);
  const reading = name.ok ? name.reading : null;
  const inFile = input.captureTime === null ? null : readLocalTime(input.captureTime);
  const inName = reading?.date && reading.time ? readLocalTime(`${reading.date} ${reading.time}`) : null;
  const time = inFile ?? inName;
  return {
    input,
    labels: [...labels.values()],
    labelProblems,
    named: reading && { pattern: reading.pattern, plot: reading.plot, place: reading.place },
    nameProblem: name.ok ? null : name.problem,
    nameDate: reading?.date ?? null,
    captureDay: inFile?.day ?? null,
    captureTimeUnreadable: input.captureTime !== null && inFile === null,
    clockS: time && dayNumber(time.day) * 86_400 + time.secondOfDay,
    counter: counterOf(input.fileName),
  };
}

function counterOf(fileName: string): PhotoEvidence['counter'] {
  const parts = /^(.*?)(\d{1,8})(?:\.[a-z0-9]{2,5})?$/i.exec(fileName.replace(/^.*[\\/]/, ''));
  return parts ? { prefix: parts[1]!, number: Number(parts[2]) } : null;
}
