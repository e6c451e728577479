import type { Certainty } from './assignPhotos.ts';
import type { CalendarDay } from './calendarDay.ts';

/** What the board shows for one plot, place and date. */
export interface BoardCell {
  readonly plot: string;
  readonly place: number;
  readonly ratingDate: CalendarDay;
  readonly state: 'there' | 'missing' | 'doubtful' | 'double';
  readonly photos: readonly string[];
}

export interface BoardPhoto {
  readonly photo: string;
  readonly plot: string | null;
  readonly place: number | null;
  readonly ratingDate: CalendarDay | null;
  readonly certainty: Certainty;
}

export interface PhotoBoard {
  /** Row-major: plots in walking order, within them places, within them dates. */
  readonly cells: readonly BoardCell[];
  /** Photos that have no cell yet: no plot, place or date, or one that the board does not have. */
  readonly unplaced: readonly string[];
}

/**
 * The board of plots by dates. Two photos in a cell are double, whatever was thought of each; a doubtful photo keeps its
 * cell doubtful until a person has looked. Cost is linear in photos and cells.
 */
export function photoBoard(
  photos: readonly BoardPhoto[],
  walkingOrder: readonly string[],
  placesPerPlot: number,
  ratingDates: readonly CalendarDay[],
): PhotoBoard {
  const cells = new Map<string, { plot: string; place: number; ratingDate: string; photos: BoardPhoto[] }>();
  const key = (plot: string | null, place: number | null, date: string | null) =>
    `${plot}\n${place}\n${date}`;
  for (const plot of walkingOrder) {
    for (let place = 1; place <= placesPerPlot; place++) {
      for (const ratingDate of ratingDates) {
        cells.set(key(plot, place, ratingDate), { plot, place, ratingDate, photos: [] });
      }
    }
  }
  const unplaced: string[] = [];
  for (const photo of photos) {
    const cell = cells.get(key(photo.plot, photo.place, photo.ratingDate));
    if (cell) cell.photos.push(photo);
    else unplaced.push(photo.photo);
  }
  return {
    cells: [...cells.values()].map((cell) => ({
      ...cell,
      state: stateOf(cell.photos),
      photos: cell.photos.map(({ photo }) => photo),
    })),
    unplaced,
  };
}

function stateOf(photos: readonly BoardPhoto[]): BoardCell['state'] {
  if (photos.length === 0) return 'missing';
  if (photos.length > 1 || photos[0]!.certainty === 'double') return 'double';
  return photos[0]!.certainty === 'doubtful' ? 'doubtful' : 'there';
}
