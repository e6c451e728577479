import type { StoreContext } from './storeContext.ts';

/** What of a person's work names a class. */
export interface ClassUse {
  readonly strokes: number;
  /** Points called as the class. */
  readonly pointCalls: number;
  /** Photos on which hands corrected to it. */
  readonly correctedPhotos: number;
  /** Photos with a figure in which the class stands. */
  readonly measuredPhotos: number;
}

/** What hangs on the classes of a trial, asked before one is removed. */
export class ClassUseStore {
  readonly #context: StoreContext;

  constructor(context: StoreContext) {
    this.#context = context;
  }

  /** Cost grows with the strokes and calls of the project. */
  of(classId: string): Promise<ClassUse> {
    return this.#context.read(['strokes', 'calls', 'corrections', 'figures'], async (tables) => {
      const current = await tables.figures.where('current', 1);
      const counts = ({ cover }: { readonly cover: readonly { readonly classId: string }[] }) =>
        cover.some((one) => one.classId === classId);
      return {
        strokes: (await tables.strokes.all()).filter((stroke) => stroke.classId === classId).length,
        pointCalls: (await tables.calls.all()).filter((call) => call.classId === classId).length,
        correctedPhotos: (await tables.corrections.all()).filter(({ classIds }) => classIds.includes(classId))
          .length,
        measuredPhotos: new Set(current.filter(counts).map(({ photoId }) => photoId)).size,
      };
    });
  }
}
