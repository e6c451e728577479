/** Strokes on one photo of a rating date, as the treatments are compared. */
export interface PaintedPhoto {
  readonly treatment: string;
  readonly strokes: number;
}

export interface TreatmentStrokes {
  readonly treatment: string;
  readonly photos: number;
  readonly paintedPhotos: number;
  readonly strokes: number;
}

/** Why the teaching may favour a treatment; a value, since the person may have a reason. */
export type LopsidedTeaching =
  /** Nothing was painted on photos of these treatments, though on others there was. */
  | { readonly code: 'treatments-left-out'; readonly treatments: readonly string[] }
  /** One treatment has more than `LOPSIDED_RATIO` times the strokes of another. */
  | {
      readonly code: 'strokes-uneven';
      readonly most: TreatmentStrokes;
      readonly least: TreatmentStrokes;
    };

/** Judgement: up to this, painting is not called lopsided. */
export const LOPSIDED_RATIO = 3;

/** Counts strokes by treatment, treatments in the order of their names. */
export function strokesByTreatment(photos: readonly PaintedPhoto[]): readonly TreatmentStrokes[] {
  const treatments = [...new Set(photos.map(({ treatment }) => treatment))].sort();
  return treatments.map((treatment) => {
    const own = photos.filter((photo) => photo.treatment === treatment);
    return {
      treatment,
      photos: own.length,
      paintedPhotos: own.filter(({ strokes }) => strokes > 0).length,
      strokes: own.reduce((sum, { strokes }) => sum + strokes, 0),
    };
  });
}

/** Whether some treatments were taught on much more than others; null where not, or where nothing was painted. */
export function lopsidedTeaching(counts: readonly TreatmentStrokes[]): LopsidedTeaching | null {
  const painted = counts.filter(({ strokes }) => strokes > 0);
  if (painted.length === 0) return null;
  if (painted.length < counts.length) {
    const left = counts.filter(({ strokes }) => strokes === 0);
    return { code: 'treatments-left-out', treatments: left.map(({ treatment }) => treatment) };
  }
  const byStrokes = [...counts].sort((a, b) => a.strokes - b.strokes);
  const [least, most] = [byStrokes[0]!, byStrokes.at(-1)!];
  return most.strokes > LOPSIDED_RATIO * least.strokes ? { code: 'strokes-uneven', most, least } : null;
}
