import { type AssignmentReason, assignPhotos, type PhotoAssignment } from '../../core/trial/assignPhotos.ts';
import { type BoardCell, photoBoard } from '../../core/trial/photoBoard.ts';
import { plotKey } from '../../core/trial/plot.ts';
import { resolveTimings } from '../../core/trial/resolveTimings.ts';
import type { TrialPlan } from '../../core/trial/trialPlan.ts';
import { walkingOrder } from '../../core/trial/walkingOrder.ts';
import type { PhotoSummary } from '../../storage/photoSummary.ts';
import type { PhotoRules } from '../../storage/records/trialRecords.ts';

/** A photo as the board shows it. */
export interface PlacedTrialPhoto extends Omit<PhotoAssignment, 'reasons'> {
  readonly reasons: readonly AssignmentReason[];
  /** A person said where it belongs. */
  readonly byPerson: boolean;
}

export interface TrialPhotosState {
  readonly photos: ReadonlyMap<string, PlacedTrialPhoto>;
  /** Plots in walking order, within them places, within them rating dates. */
  readonly cells: readonly BoardCell[];
  /** Photos without a cell. */
  readonly unplaced: readonly string[];
  readonly ratingDates: readonly string[];
  readonly plots: readonly string[];
  readonly placesPerPlot: number;
}

/** Where there is no trial. */
export const NO_PLACES: TrialPhotosState = {
  photos: new Map(),
  cells: [],
  unplaced: [],
  ratingDates: [],
  plots: [],
  placesPerPlot: 1,
};

/** Photos that wait for a person: without a cell, doubtful, or double. Analyses do without them. */
export function heldPhotos({ cells, unplaced }: TrialPhotosState): ReadonlySet<string> {
  const waiting = cells.filter(({ state }) => state === 'doubtful' || state === 'double');
  return new Set([...unplaced, ...waiting.flatMap(({ photos }) => photos)]);
}

/** Days of the trial's ratings, in order; those that wait for something have none. */
export function ratingDatesOf(plan: TrialPlan): string[] {
  const days = [...resolveTimings(plan).ratings.values()].flatMap((rating) =>
    'day' in rating ? [rating.day] : [],
  );
  return [...new Set(days)].sort();
}

/**
 * Where every photo of the project belongs in the trial. What a person said stands; the rest is weighed together, and
 * what is not certain is held.
 */
export function placePhotos(
  plan: TrialPlan,
  { fileNamePatterns, walk, orderTrusted, dateOfUndated = null }: PhotoRules,
  all: readonly PhotoSummary[],
): TrialPhotosState {
  // a photo that was replaced belongs nowhere, and nobody is asked about it
  const photos = all.filter(({ replaced }) => replaced === null);
  const plots = walkingOrder(plan.plots, walk).map(({ plot }) => plot);
  const ratingDates = ratingDatesOf(plan);
  const placesPerPlot = plan.framePlan?.placesPerPlot ?? 1;
  if (plots.length === 0) return { ...NO_PLACES, ratingDates, placesPerPlot };
  const spelling = new Map(plots.map((plot) => [plotKey(plot), plot]));
  const byHand = photos
    .filter(({ namedBy }) => namedBy === 'person')
    .map(({ id, plot, place, ratingDate }): PlacedTrialPhoto => {
      const known = plot === null ? null : (spelling.get(plotKey(plot)) ?? null);
      const at = place ?? (placesPerPlot === 1 ? 1 : null);
      const whole = known !== null && at !== null && ratingDate !== null;
      return {
        photo: id,
        plot: known,
        place: at,
        ratingDate,
        certainty: whole ? 'certain' : 'doubtful',
        probability: known === null ? 0 : 1,
        reasons: [],
        byPerson: true,
      };
    });
  const alreadyThere = byHand.flatMap(({ photo, plot, place, ratingDate }) =>
    plot === null || place === null || ratingDate === null
      ? []
      : [{ photo, plot, place, ratingDate, sha256: null }],
  );
  const assigned = assignPhotos(
    photos
      .filter(({ namedBy }) => namedBy !== 'person')
      .map(({ id, name, takenAt, camera, labelTexts }) => ({
        photo: id,
        fileName: name,
        captureTime: takenAt ?? camera?.unreadableTime ?? null,
        utcOffsetMinutes: camera?.utcOffsetMinutes ?? null,
        device: camera?.device ?? null,
        labelTexts: labelTexts ?? [],
        sha256: null,
      })),
    {
      trialCode: plan.trial.code,
      walkingOrder: plots,
      placesPerPlot,
      ratingDates,
      fileNamePatterns,
      orderTrusted,
      dateOfUndated,
      alreadyThere,
    },
  ).map((assignment): PlacedTrialPhoto => ({ ...assignment, byPerson: false }));
  const weighed = [...byHand, ...assigned];
  const placed = new Map(weighed.map((photo) => [photo.photo, photo]));
  const board = photoBoard(weighed, plots, placesPerPlot, ratingDates);
  // several photos of a cell that a person put there are subsamples, not a mistake
  const cells = board.cells.map((cell) =>
    cell.state === 'double' && cell.photos.every((photo) => placed.get(photo)!.byPerson)
      ? { ...cell, state: 'there' as const }
      : cell,
  );
  return { photos: placed, cells, unplaced: board.unplaced, ratingDates, plots, placesPerPlot };
}
