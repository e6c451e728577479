import type { ReactNode } from 'react';
import type { CalendarDay } from '../../core/trial/calendarDay.ts';
import type { ChartWords } from './chartTypes.ts';

/** A photo (or its mask) of a plot on a date. */
export interface MatrixPhoto {
  readonly plot: string;
  readonly ratingDate: CalendarDay;
  /** Whatever the screen's own pictures go by. */
  readonly photoId: string;
  /** What stands below the picture, e.g. "38 %". */
  readonly words: string;
}

export interface PhotoMatrixProps extends ChartWords {
  /** In the order of the rows. */
  readonly plots: readonly { readonly plot: string; readonly treatment: string }[];
  readonly ratingDates: readonly CalendarDay[];
  /** At most one for each plot and date. */
  readonly photos: readonly MatrixPhoto[];
  /** Draws a picture; called only for rows that come near the window. Its words stand beside it, so it needs no text of its own. */
  readonly picture: (photo: MatrixPhoto) => ReactNode;
  /** The picture as it goes into a saved file; null where there is none. Without this the matrix cannot be saved. */
  readonly pictureFile?: (photo: MatrixPhoto) => Promise<Blob | null>;
  /** Draws all rows at once, as a report needs it. @default false */
  readonly allRows?: boolean;
  /** Where a picture leads; none without. */
  readonly hrefOf?: (photo: MatrixPhoto) => string;
}
