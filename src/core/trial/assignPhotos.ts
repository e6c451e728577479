import { type CalendarDay, daysBetween } from './calendarDay.ts';
import { fileNameReader, type NameProblem } from './fileNamePattern.ts';
import { groupBy } from './groupBy.ts';
import { type PhotoEvidence, type PhotoToAssign, photoEvidence } from './photoEvidence.ts';
import { type PhotoSequence, photoSequences } from './photoSequences.ts';
import type { LabelProblem } from './plotLabel.ts';
import { type WalkPhoto, type WalkPosterior, walkPosterior } from './walkModel.ts';

/** What the photos are put into. */
export interface AssignmentPlan {
  readonly trialCode: string;
  /** Names of the plots in the order they are walked past. */
  readonly walkingOrder: readonly string[];
  readonly placesPerPlot: number;
  /** Days on which the trial is rated; photos of other days are held. */
  readonly ratingDates: readonly CalendarDay[];
  readonly fileNamePatterns: readonly string[];
  /**
   * The user says that plots were walked in this order with a photo at each place. Without it the order only fills in between
   * photos that say their plot; with it a whole walk without a label is believed if numbers and times fit.
   */
  readonly orderTrusted: boolean;
  /** The day the user names for photos that say none themselves; null if the user names none. */
  readonly dateOfUndated: CalendarDay | null;
  /** Photos that are in the trial already. */
  readonly alreadyThere: readonly PlacedPhoto[];
}

export interface PlacedPhoto {
  readonly photo: string;
  readonly plot: string;
  readonly place: number;
  readonly ratingDate: CalendarDay;
  readonly sha256: string | null;
}

/**
 * `certain`: goes to its plot. `doubtful`: held for a person, with the likeliest plot if there is one. `double`: the plot is
 * clear, but it has another photo of that place and date, or the same file: a person chooses.
 */
export type Certainty = 'certain' | 'doubtful' | 'double';

/** Why a photo went where it went; all of them are shown. */
export type AssignmentReason =
  | { readonly code: 'by-label' }
  | { readonly code: 'by-file-name'; readonly pattern: string }
  | { readonly code: 'by-walking-order'; readonly position: number; readonly of: number }
  | { readonly code: 'label-trouble'; readonly problem: LabelProblem }
  | { readonly code: 'file-name-trouble'; readonly problem: NameProblem }
  | { readonly code: 'several-labels'; readonly plots: readonly string[] }
  | { readonly code: 'label-against-file-name'; readonly label: string; readonly fileName: string }
  | { readonly code: 'order-says-otherwise'; readonly said: string; readonly likelier: string | null }
  | {
      readonly code: 'order-unclear';
      readonly likely: readonly { readonly plot: string; readonly probability: number }[];
    }
  | { readonly code: 'plot-missing-nearby'; readonly plot: string }
  | { readonly code: 'order-not-confirmed' }
  | { readonly code: 'names-against-times' }
  | { readonly code: 'walk-too-long' }
  | { readonly code: 'nothing-to-go-by' }
  | { readonly code: 'likely-no-plot' }
  | { readonly code: 'place-unclear'; readonly places: number }
  | { readonly code: 'date-from'; readonly source: DateSource; readonly date: CalendarDay }
  | { readonly code: 'date-unknown' }
  | { readonly code: 'dates-differ'; readonly dates: readonly CalendarDay[] }
  | { readonly code: 'no-rating-on-day'; readonly date: CalendarDay; readonly nearest: CalendarDay | null }
  | { readonly code: 'capture-time-unreadable'; readonly written: string }
  | { readonly code: 'same-file'; readonly as: string }
  | { readonly code: 'same-place-and-date'; readonly as: readonly string[] };

export type DateSource = 'label' | 'file-name' | 'capture-time' | 'neighbours' | 'user';

export interface PhotoAssignment {
  readonly photo: string;
  /** The plot it goes to, or for a doubtful one the likeliest; null where nothing points to one. */
  readonly plot: string | null;
  /** Place of the frame in the plot, 1..placesPerPlot. */
  readonly place: number | null;
  readonly ratingDate: CalendarDay | null;
  readonly certainty: Certainty;
  /** Probability of the plot under the model of the walk, 0..1; 0 where there is no plot. */
  readonly probability: number;
  readonly reasons: readonly AssignmentReason[];
}

/**
 * From these probabilities on a plot is certain: with a label or name to it; by order between photos that say their plots; and
 * by order alone, on a walk the user vouches for, where nothing in the photos could bear it out.
 */
const CERTAIN_WITH_EVIDENCE = 0.95;
const CERTAIN_BY_ORDER = 0.995;
const CERTAIN_BY_TRUSTED_ORDER = 0.985;
/** A doubtful photo shows a plot from this probability on. */
const WORTH_SHOWING = 0.2;
const OTHER_PLOTS_SHOWN = 3;
/** Photos so near to a plot without a photo may be of that plot. */
const BESIDE_GAP = 2;
/** Beyond it the order is not looked at: photos times places of one camera's day. */
const LARGEST_WALK = 2_000_000;

/**
 * Puts photos to plots by label, file name and walking order, all weighed together, always with the reasons.
 *
 * Order alone cannot see two neighbouring plots that were photographed in the other's turn; a label now and then can.
 *
 * @returns one assignment for each photo, in the order given
 * @throws RangeError for a file name pattern that cannot be used, or no plots
 */
export function assignPhotos(photos: readonly PhotoToAssign[], plan: AssignmentPlan): PhotoAssignment[] {
  if (plan.walkingOrder.length === 0)
    throw new RangeError('photos need plots to go to: the walking order is empty');
  const names = fileNameReader(plan.fileNamePatterns, plan.walkingOrder);
  const all = photos.map((photo) => photoEvidence(photo, plan.trialCode, plan.walkingOrder, names));
  const originals = originalOf(photos, plan.alreadyThere);
  const first = all.filter(({ input }) => !originals.has(input.photo));
  const { sequences, alone } = photoSequences(first);
  const found = new Map<string, PhotoAssignment>();
  for (const sequence of sequences) {
    for (const assignment of ofSequence(sequence, plan)) found.set(assignment.photo, assignment);
  }
  for (const photo of alone) {
    const single = { photos: [photo], gapsS: [null], day: null, inStep: true };
    found.set(photo.input.photo, ofSequence(single, plan, false)[0]!);
  }
  for (const copy of all) holdIfNamedOtherwise(copy, originals.get(copy.input.photo), found);
  markDoubles(found, plan.alreadyThere);
  return all.map(
    (one) =>
      found.get(one.input.photo) ?? copyOf(one, originals.get(one.input.photo)!, found, plan.alreadyThere),
  );
}

/** For each photo whose bytes were there before: the photo that has them. */
function originalOf(photos: readonly PhotoToAssign[], there: readonly PlacedPhoto[]): Map<string, string> {
  const byHash = new Map(
    there.flatMap(({ sha256, photo }) => (sha256 === null ? [] : [[sha256, photo] as const])),
  );
  // The shortest name is the likeliest to be the camera's own: copies get something added.
  const inNameOrder = [...photos].sort(
    (a, b) => a.fileName.length - b.fileName.length || (a.fileName < b.fileName ? -1 : 1),
  );
  const originals = new Map<string, string>();
  for (const { photo, sha256 } of inNameOrder) {
    if (sha256 === null) continue;
    const original = byHash.get(sha256);
    if (original === undefined) byHash.set(sha256, photo);
    else originals.set(photo, original);
  }
  return originals;
}

/** A copy whose name says another plot or date makes its original doubtful: one of the two names is wrong. */
function holdIfNamedOtherwise(
  copy: PhotoEvidence,
  original: string | undefined,
  found: Map<string, PhotoAssignment>,
): void {
  const first = original === undefined ? undefined : found.get(original);
  if (!first || !isNamedOtherwise(copy, first)) return;
  const reasons = [...first.reasons, { code: 'same-file', as: copy.input.photo } as const];
  found.set(first.photo, { ...first, certainty: 'doubtful', reasons });
}

function isNamedOtherwise(
  { named, nameDate }: PhotoEvidence,
  { plot, ratingDate }: { readonly plot: string | null; readonly ratingDate: CalendarDay | null },
): boolean {
  const otherPlot = named !== null && named.plot !== null && named.plot !== plot;
  return otherPlot || (nameDate !== null && nameDate !== ratingDate);
}

function copyOf(
  copy: PhotoEvidence,
  original: string,
  found: ReadonlyMap<string, PhotoAssignment>,
  there: readonly PlacedPhoto[],
): PhotoAssignment {
  const { photo } = copy.input;
  const same = { code: 'same-file', as: original } as const;
  const placed = there.find((one) => one.photo === original);
  if (placed) {
    const { plot, place, ratingDate } = placed;
    const certainty = isNamedOtherwise(copy, placed) ? 'doubtful' : 'double';
    return { photo, plot, place, ratingDate, certainty, probability: 1, reasons: [same] };
  }
  const first = found.get(original)!;
  const certainty = first.certainty === 'doubtful' ? 'doubtful' : 'double';
  return { ...first, photo, certainty, reasons: [same] };
}

function ofSequence(sequence: PhotoSequence, plan: AssignmentPlan, ordered = true): PhotoAssignment[] {
  const { walkingOrder, placesPerPlot } = plan;
  const indexOf = new Map(walkingOrder.map((plot, index) => [plot, index]));
  const useOrder = ordered && sequence.inStep && sequence.photos.length > 1 && !isTooLong(sequence, plan);
  const walked = sequence.photos.map((photo, index): WalkPhoto => {
    const plots = [...new Set(photo.labels.map(({ plot }) => indexOf.get(plot)!))];
    return {
      gapS: sequence.gapsS[index]!,
      labelPlots: plots,
      namePlot: photo.named?.plot ? indexOf.get(photo.named.plot)! : null,
      place: placeSaid(photo, placesPerPlot),
      foreign: photo.labelProblems.some(({ code }) => code === 'label-of-other-trial'),
    };
  });
  const posterior = walkPosterior(walked, walkingOrder.length, placesPerPlot, useOrder);
  const assignments = sequence.photos.map((photo, index) =>
    decide(photo, index, sequence, posterior, useOrder, plan),
  );
  return useOrder ? holdBesideGaps(assignments, sequence.photos, walkingOrder) : assignments;
}

/**
 * Where a plot has no photo, the photos beside the gap may be of it, taken out of turn: those that only the order speaks for
 * are held.
 */
function holdBesideGaps(
  assignments: readonly PhotoAssignment[],
  photos: readonly PhotoEvidence[],
  walkingOrder: readonly string[],
): PhotoAssignment[] {
  const indexOf = new Map(walkingOrder.map((plot, index) => [plot, index]));
  const taken = new Set(assignments.map(({ plot }) => plot));
  const indexes = assignments.map(({ plot }) => (plot === null ? null : indexOf.get(plot)!));
  const gapAt = new Map<number, string>();
  for (let step = 0; step <= indexes.length; step++) {
    const [from, to] = [
      step === 0 ? -1 : indexes[step - 1],
      step === indexes.length ? walkingOrder.length : indexes[step],
    ];
    if (from === null || from === undefined || to === null || to === undefined) continue;
    const missing = walkingOrder.slice(from + 1, Math.max(from + 1, to)).find((plot) => !taken.has(plot));
    if (missing === undefined) continue;
    for (let near = step - BESIDE_GAP; near < step + BESIDE_GAP; near++) gapAt.set(near, missing);
  }
  return assignments.map((assignment, index) => {
    const plot = gapAt.get(index);
    if (plot === undefined || assignment.certainty !== 'certain' || saysPlot(photos[index]!))
      return assignment;
    const reasons = [...assignment.reasons, { code: 'plot-missing-nearby', plot } as const];
    return { ...assignment, certainty: 'doubtful', reasons };
  });
}

function placeSaid(photo: PhotoEvidence, placesPerPlot: number): number | null {
  const said = photo.labels[0]?.place ?? photo.named?.place ?? null;
  return said !== null && said <= placesPerPlot ? said : null;
}

function decide(
  photo: PhotoEvidence,
  index: number,
  sequence: PhotoSequence,
  posterior: WalkPosterior,
  useOrder: boolean,
  plan: AssignmentPlan,
): PhotoAssignment {
  const { walkingOrder, placesPerPlot } = plan;
  const ranked = rankPlots(posterior, index, walkingOrder, placesPerPlot);
  const best = ranked[0]!;
  const reasons: AssignmentReason[] = [];
  let held = false;
  const hold = (reason: AssignmentReason) => {
    reasons.push(reason);
    held = true;
  };

  const labelled = [...new Set(photo.labels.map(({ plot }) => plot))];
  const named = photo.named?.plot ?? null;
  const said = labelled[0] ?? named;
  if (labelled.length > 0) reasons.push({ code: 'by-label' });
  if (named !== null) reasons.push({ code: 'by-file-name', pattern: photo.named!.pattern });
  if (labelled.length > 1) hold({ code: 'several-labels', plots: labelled });
  if (labelled.length === 1 && named !== null && named !== labelled[0]) {
    hold({ code: 'label-against-file-name', label: labelled[0]!, fileName: named });
  }
  for (const problem of photo.labelProblems) hold({ code: 'label-trouble', problem });
  if (said === null && photo.nameProblem && isTrouble(photo.nameProblem)) {
    hold({ code: 'file-name-trouble', problem: photo.nameProblem });
  }

  const noPlot = posterior.noPlotProbability[index]!;
  if (said !== null) {
    if (best.plot !== said || best.probability < CERTAIN_WITH_EVIDENCE) {
      const likelier = best.plot === said ? (ranked[1]?.plot ?? null) : best.plot;
      if (useOrder && !held) hold({ code: 'order-says-otherwise', said, likelier });
      held = true;
    }
  } else if (best.probability >= enoughByOrder(sequence.photos, plan)) {
    reasons.push({ code: 'by-walking-order', position: index + 1, of: sequence.photos.length });
    if (!plan.orderTrusted && !liesBetweenKnown(sequence.photos, index))
      hold({ code: 'order-not-confirmed' });
  } else if (!useOrder) {
    hold({ code: whyNoOrder(sequence, plan) });
  } else if (noPlot > best.probability) {
    hold({ code: 'likely-no-plot' });
  } else {
    const likely = ranked.slice(0, OTHER_PLOTS_SHOWN).filter(({ probability }) => probability >= 0.01);
    hold({ code: 'order-unclear', likely: likely.map(({ plot, probability }) => ({ plot, probability })) });
  }

  const shown = best.probability >= WORTH_SHOWING ? best : null;
  if (shown && shown.placeProbability < CERTAIN_WITH_EVIDENCE * shown.probability && !held) {
    hold({ code: 'place-unclear', places: placesPerPlot });
  }
  const dated = dateOf(photo, index, sequence, plan);
  reasons.push(...dated.reasons);
  return {
    photo: photo.input.photo,
    plot: shown?.plot ?? null,
    place: shown?.place ?? null,
    ratingDate: dated.ratingDate,
    certainty: held || dated.held || !shown ? 'doubtful' : 'certain',
    probability: shown?.probability ?? 0,
    reasons,
  };
}

const isTooLong = ({ photos }: PhotoSequence, { walkingOrder, placesPerPlot }: AssignmentPlan) =>
  photos.length * walkingOrder.length * placesPerPlot > LARGEST_WALK;

function whyNoOrder(sequence: PhotoSequence, plan: AssignmentPlan) {
  if (!sequence.inStep) return 'names-against-times';
  return isTooLong(sequence, plan) ? 'walk-too-long' : 'nothing-to-go-by';
}

const saysPlot = ({ labels, named }: PhotoEvidence) =>
  labels.length > 0 || (named !== null && named.plot !== null);

function enoughByOrder(photos: readonly PhotoEvidence[], { orderTrusted }: AssignmentPlan): number {
  return orderTrusted && !photos.some(saysPlot) ? CERTAIN_BY_TRUSTED_ORDER : CERTAIN_BY_ORDER;
}

/** Whether photos before and after it say their plots themselves. */
function liesBetweenKnown(photos: readonly PhotoEvidence[], index: number): boolean {
  const known = photos.map(
    ({ labels, named }) => labels.length > 0 || (named !== null && named.plot !== null),
  );
  return known.slice(0, index).includes(true) && known.slice(index + 1).includes(true);
}

/** A name that says a plot or a day which cannot be. One with a word where the plot would stand ("new") says nothing. */
function isTrouble(problem: NameProblem): boolean {
  if (problem.code === 'name-with-unknown-plot') return /\d/.test(problem.plot);
  return problem.code === 'name-with-impossible-date';
}

interface RankedPlot {
  readonly plot: string;
  readonly probability: number;
  readonly place: number;
  readonly placeProbability: number;
}

/** The likeliest few plots, likeliest first, each with its likeliest place. */
function rankPlots(
  { slotProbability }: WalkPosterior,
  photo: number,
  walkingOrder: readonly string[],
  placesPerPlot: number,
): RankedPlot[] {
  const slots = walkingOrder.length * placesPerPlot;
  const top: RankedPlot[] = [];
  walkingOrder.forEach((plot, p) => {
    let [probability, place, placeProbability] = [0, 1, -1];
    for (let k = 0; k < placesPerPlot; k++) {
      const ofPlace = slotProbability[photo * slots + p * placesPerPlot + k]!;
      probability += ofPlace;
      if (ofPlace > placeProbability) [place, placeProbability] = [k + 1, ofPlace];
    }
    const behind = top.findIndex((one) => one.probability < probability);
    if (behind >= 0 || top.length < OTHER_PLOTS_SHOWN) {
      top.splice(behind < 0 ? top.length : behind, 0, { plot, probability, place, placeProbability });
      top.length = Math.min(top.length, OTHER_PLOTS_SHOWN);
    }
  });
  return top;
}

function dateOf(photo: PhotoEvidence, index: number, sequence: PhotoSequence, plan: AssignmentPlan) {
  const reasons: AssignmentReason[] = [];
  const written = photo.input.captureTime;
  if (photo.captureTimeUnreadable) reasons.push({ code: 'capture-time-unreadable', written: written! });
  const labelDate = photo.labels.find(({ ratingDate }) => ratingDate !== null)?.ratingDate ?? null;
  const sources: readonly (readonly [DateSource, CalendarDay | null])[] = [
    ['label', labelDate],
    ['file-name', photo.nameDate],
    ['capture-time', photo.captureDay],
  ];
  const own = sources.flatMap(([source, date]) => (date === null ? [] : [{ source, date }]));
  const dates = [...new Set(own.map(({ date }) => date))];
  if (dates.length > 1) {
    reasons.push({ code: 'dates-differ', dates });
    return { ratingDate: onList(dates[0]!, plan), held: true, reasons };
  }
  const from = own[0] ?? borrowedDate(index, sequence, plan);
  if (!from)
    return { ratingDate: null, held: true, reasons: [...reasons, { code: 'date-unknown' } as const] };
  const ratingDate = onList(from.date, plan);
  if (ratingDate === null) {
    const nearest = nearestDate(from.date, plan.ratingDates);
    return {
      ratingDate,
      held: true,
      reasons: [...reasons, { code: 'no-rating-on-day', date: from.date, nearest } as const],
    };
  }
  return { ratingDate, held: false, reasons: [...reasons, { code: 'date-from', ...from } as const] };
}

const onList = (date: CalendarDay, plan: AssignmentPlan) => (plan.ratingDates.includes(date) ? date : null);

/** For a photo that says no date: the day of dated photos before and after it on the walk, else the day the user named. */
function borrowedDate(
  index: number,
  { photos, day }: PhotoSequence,
  { dateOfUndated }: AssignmentPlan,
): { readonly source: DateSource; readonly date: CalendarDay } | null {
  const dated = photos.map(({ captureDay, nameDate }) => (captureDay ?? nameDate) !== null);
  if (day !== null && dated.slice(0, index).includes(true) && dated.slice(index + 1).includes(true)) {
    return { source: 'neighbours', date: day };
  }
  return dateOfUndated === null ? null : { source: 'user', date: dateOfUndated };
}

function nearestDate(date: CalendarDay, among: readonly CalendarDay[]): CalendarDay | null {
  const away = (one: CalendarDay) => Math.abs(daysBetween(date, one));
  return [...among].sort((a, b) => away(a) - away(b))[0] ?? null;
}

/** Certain photos of one place and date are doubles of each other, and of photos that were there before. */
function markDoubles(found: Map<string, PhotoAssignment>, there: readonly PlacedPhoto[]): void {
  const key = (one: { plot: string | null; place: number | null; ratingDate: string | null }) =>
    `${one.plot}\n${one.place}\n${one.ratingDate}`;
  const certain = [...found.values()].filter(({ certainty }) => certainty === 'certain');
  const before = groupBy(there, key);
  for (const [where, assignments] of groupBy(certain, key)) {
    const names = [...(before.get(where) ?? []), ...assignments].map(({ photo }) => photo);
    if (names.length < 2) continue;
    for (const assignment of assignments) {
      const as = names.filter((name) => name !== assignment.photo);
      found.set(assignment.photo, {
        ...assignment,
        certainty: 'double',
        reasons: [...assignment.reasons, { code: 'same-place-and-date', as }],
      });
    }
  }
}
