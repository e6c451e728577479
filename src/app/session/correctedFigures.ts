import { classCounts } from '../../core/cover/classCounts.ts';
import { areaOfMask } from '../../core/mask/areaOfMask.ts';
import { correctedMask } from '../../core/mask/correctedMask.ts';
import { correctionSummary } from '../../core/mask/correctionSummary.ts';
import { correctedFigure, correctionsSha256 } from './correctedFigure.ts';
import { readCorrections } from './readCorrections.ts';
import type { PhotoSummary } from './session.ts';
import type { OpenPart, PartContext } from './sessionPart.ts';

/** The part that makes corrected figures anew when their photo was measured again, on whatever screen. */
export const openCorrectedFigures: OpenPart<CorrectedFigures> = async (context) => {
  const figures = new CorrectedFigures(context);
  context.onClose(() => figures.stop());
  await figures.start();
  return figures;
};

/**
 * Keeps corrected figures in step with automatic ones: corrections stay where they are when frame, model or settings
 * change, and the figure is made anew over the new mask. Also makes those that were left undone when a page died.
 */
export class CorrectedFigures {
  readonly #context: Pick<PartContext, 'store' | 'photos' | 'settle' | 'mask'>;
  /** The automatic figure whose corrected one was made last, by photo. */
  readonly #made = new Map<string, string>();
  readonly #waiting = new Set<string>();
  #running: Promise<void> = Promise.resolve();
  #stopped = false;
  #unsubscribe: () => void = () => {};

  constructor(context: Pick<PartContext, 'store' | 'photos' | 'settle' | 'mask'>) {
    this.#context = context;
  }

  async start(): Promise<void> {
    const { photos, store } = this.#context;
    this.#unsubscribe = photos.subscribe(() => this.#look());
    for (const id of await store.corrections.figuresDue()) this.#waiting.add(id);
    this.#look();
  }

  /** Done when nothing is left to make. */
  settled(): Promise<void> {
    return this.#running;
  }

  stop(): void {
    this.#stopped = true;
    this.#unsubscribe();
  }

  #look(): void {
    const photos = this.#context.photos.get();
    const ready = photos.filter(
      ({ id, work, figure, figures }) =>
        work === null &&
        figure !== null &&
        this.#made.get(id) !== figure.id &&
        (this.#waiting.has(id) ||
          (figures.corrected !== undefined && figures.corrected.measuredAt < figure.measuredAt)),
    );
    for (const photo of ready) {
      this.#waiting.delete(photo.id);
      this.#made.set(photo.id, photo.figure!.id);
      this.#running = this.#running
        .then(() => this.#make(photo))
        .catch((error) => console.error(`no corrected figure of ${photo.name}`, error));
    }
  }

  async #make({ id, figure }: PhotoSummary): Promise<void> {
    const { store, settle, mask: maskOf } = this.#context;
    if (this.#stopped || !figure) return;
    const mask = await maskOf(id);
    const record = await store.corrections.layer(id);
    // a mask that has to be made again comes with a change of the photos
    if (!mask) this.#made.delete(id);
    if (!mask || !record || this.#stopped) return;
    const { classes } = figure.settings;
    const read = readCorrections(
      record,
      mask,
      classes.map((one) => one.id),
    );
    // damaged bytes are told where the photo is corrected
    if (!read.ok) return;
    const area = areaOfMask(mask, figure.settings);
    const corrected = correctedMask(mask, read.layer, classes.length);
    const counts = classCounts(corrected.effective, area, classes.length);
    const summary = correctionSummary(corrected, area, classCounts(mask, area, classes.length));
    settle(
      await store.corrections.keepFigure({
        photoId: id,
        revision: record.revision,
        figure: read.layer.tiles.size === 0 ? null : correctedFigure(figure, counts, summary),
        correctionsSha256: await correctionsSha256(read.layer),
        by: null,
      }),
    );
  }
}
