import { photoPoint } from '../../core/geometry/points.ts';
import { labelAtPoint } from '../../core/point-grid/labelAtPoint.ts';
import type { TrainingPicture as PictureResult } from '../../core/point-grid/observerTraining.ts';
import { callsOf } from '../../core/point-grid/pointCall.ts';
import { pointPlaces } from '../../core/point-grid/pointPlaces.ts';
import { placePoints } from '../../core/point-grid/pointSet.ts';
import { seedFor } from '../../core/trial/repeatableRandom.ts';
import type { PointCalling } from './pointCalling.ts';
import type { Points } from './points.ts';
import { loadTrainingPictures, type TrainingPicture } from './trainingPictures.ts';

/** Points called on each picture: six pictures together give kappa a standard error of about 0.06. */
export const POINTS_A_PICTURE = 25;
/** All observers see the same points in the same round, wherever the program runs. */
const TRAINING_SEED = 20270308;

/** A picture with its points, ready to be called. */
export interface PlacedPoints {
  readonly picture: ImageBitmap;
  readonly millimetresPerPixel: number | null;
  readonly calling: PointCalling;
}

/** One round of training of one observer. */
export interface TrainingRound {
  readonly number: number;
  readonly pictures: readonly PlacedPoints[];
  /** @param rated cover at a glance, in class order */
  resultOf(index: number, rated: readonly number[]): PictureResult;
  /** Keeps the round with the trial. */
  finish(results: readonly PictureResult[]): Promise<void>;
  /** Frees the pictures' memory. */
  close(): void;
}

/** @throws Error where a picture cannot be fetched */
export async function openRound(points: Points, observer: string, number: number): Promise<TrainingRound> {
  const loaded = await loadTrainingPictures();
  const placed = loaded.map((one) => withPoints(one, points, observer, number));
  return {
    number,
    pictures: placed,
    resultOf: (index, rated) => {
      const { calling, truth } = placed[index]!;
      const { name, classIds, truth: mask } = loaded[index]!;
      const calls = callsOf(calling.session.get().calls, observer);
      const ids = [...truth.keys()];
      const all = mask.labels.length;
      return {
        picture: name,
        rated: [...rated],
        called: ids.map((id) => {
          const classId = calls.get(id)?.classId ?? null;
          return classId === null ? null : classIds.indexOf(classId);
        }),
        truth: ids.map((id) => truth.get(id)! - 1),
        trueCover: classIds.map(
          (_, index) => mask.labels.filter((label) => label === index + 1).length / all,
        ),
      };
    },
    finish: (results) =>
      points.addTest({
        observer,
        round: number,
        pictures: results.map(({ picture, rated, called, truth, trueCover }) => ({
          picture,
          rated: [...rated],
          called: [...called],
          truth: [...truth],
          trueCover: [...trueCover],
        })),
      }),
    close: () => {
      for (const { picture } of loaded) picture.close();
    },
  };
}

function withPoints(
  { name, picture, truth: mask, area }: TrainingPicture,
  points: Points,
  observer: string,
  round: number,
): PlacedPoints & { readonly truth: ReadonlyMap<number, number> } {
  const { widthPx, heightPx } = mask;
  const corners = [
    photoPoint(0, 0),
    photoPoint(widthPx, 0),
    photoPoint(widthPx, heightPx),
    photoPoint(0, heightPx),
  ] as const;
  const seed = seedFor(TRAINING_SEED, name, String(round));
  const placing = placePoints(
    { kind: 'simple-random', points: POINTS_A_PICTURE },
    { corners, sizeMm: null },
    area,
    seed,
  );
  if (!placing.ok) throw new Error(`no point can be placed on ${name}`);
  const places = pointPlaces(placing.set, [], corners, area);
  return {
    picture,
    millimetresPerPixel: area.millimetresPerPixel,
    calling: points.practise(places, observer, seed, { kind: 'every-pixel' }),
    truth: new Map(places.map(({ id, at }) => [id, labelAtPoint(mask, area, at)])),
  };
}
