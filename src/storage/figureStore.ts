import type { Figure } from './photoSummary.ts';
import type { FigureRecord, PhotoRecord } from './records/photoRecords.ts';
import type { Written } from './storageProblem.ts';
import type { CheckedTable, StoreContext } from './storeContext.ts';

/** A figure as it is made; the store adds instant and hash. */
export type NewFigure = Omit<Figure, 'id' | 'measuredAt' | 'photoSha256' | 'correctionsSha256'>;

/** Where a figure came from, beside what it says. */
export type FigureOrigin = Pick<FigureRecord, 'id' | 'measuredAt' | 'measuredBy' | 'correctionsSha256'>;

/** Figures that are not made by measuring: corrected, by points, adjusted. */
export class FigureStore {
  readonly #context: StoreContext;

  constructor(context: StoreContext) {
    this.#context = context;
  }

  /**
   * Keeps a figure as the newest of its method; those before it stay.
   *
   * @param by who made it
   * @returns its id, or null where the photo was removed meanwhile
   */
  keep(
    photoId: string,
    figure: NewFigure,
    by: string | null,
    correctionsSha256: string | null = null,
  ): Promise<Written<string | null>> {
    return this.#context.write(
      ['photos', 'figures'],
      async ({ photos, figures }) => {
        const photo = await photos.get(photoId);
        if (!photo) return null;
        const origin = { id: this.#context.newId(), measuredAt: this.#context.now(), measuredBy: by };
        return putFigure(figures, photo, figure, { ...origin, correctionsSha256 });
      },
      (id) => ({ photoIds: id === null ? [] : [photoId] }),
    );
  }

  /** All figures of a photo that ever were, the oldest first. */
  async all(photoId: string): Promise<readonly FigureRecord[]> {
    const figures = await this.#context.read(['figures'], (tables) =>
      tables.figures.where('photoId', photoId),
    );
    return figures.sort((a, b) => (a.measuredAt < b.measuredAt ? -1 : 1));
  }
}

/** Puts a figure in the place of the current one of its method. Part of a larger transaction. @returns its id */
export async function putFigure(
  figures: CheckedTable<'figures'>,
  photo: PhotoRecord,
  figure: NewFigure,
  origin: FigureOrigin,
): Promise<string> {
  for (const before of await figures.where('photoId', photo.id)) {
    if (before.current === 1 && before.method === figure.method) await figures.put({ ...before, current: 0 });
  }
  const { cover, flags, reasons = [], ...rest } = figure;
  await figures.put({
    ...rest,
    ...origin,
    cover: [...cover],
    flags: [...flags],
    ...(reasons.length > 0 && { reasons: [...reasons] }),
    photoId: photo.id,
    current: 1,
    photoSha256: photo.sha256,
  });
  return origin.id;
}
