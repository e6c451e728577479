import type { HeldBackAgreement } from '../src/core/classifier/heldBackAgreement.ts';
import type { PhotoLook } from '../src/core/classifier/photoLook.ts';
import type { StrokeProblem } from '../src/core/classifier/trainingSamples.ts';
import type { MeasureProblem, NamedModel } from '../src/core/cover/measurePhoto.ts';
import type { AppliedLesson, DeskPhoto, Lesson, NamedStroke } from '../src/core/cover/teachingDesk.ts';
import type { PhotoProblem } from '../src/core/photo-file/photoProblem.ts';

/** A photo to be put on the desk. `bytes` is transferred. */
export interface ReadPhotoJob extends DeskPhoto {
  readonly bytes: ArrayBuffer;
}

export type ReadPhotoOutcome =
  | { readonly ok: true; readonly problems: readonly StrokeProblem[]; readonly look: PhotoLook }
  | { readonly ok: false; readonly problem: PhotoProblem | MeasureProblem };

/** A gesture: the strokes on the open photo now, and which photos teach. */
export interface LessonRequest {
  readonly photoId: string;
  readonly strokes: readonly NamedStroke[];
  readonly photoIds: readonly string[];
  readonly classIds: readonly string[];
}

export interface LessonOutcome {
  readonly lesson: Lesson;
  /** What of the open photo's strokes cannot be used. */
  readonly problems: readonly StrokeProblem[];
  /** The open photo at half a megapixel; null where nothing was taught. */
  readonly preview: AppliedLesson | null;
}

/** The teaching worker as the page sees it: it keeps the photos of one rating date (core/cover/teachingDesk.ts). */
export interface TeachApi {
  read(job: ReadPhotoJob): Promise<ReadPhotoOutcome>;
  teach(request: LessonRequest): LessonOutcome;
  apply(photoId: string, detail: 'whole' | 'small'): AppliedLesson | null;
  /** On strokes that were held back; null where too few were painted. */
  agreement(): HeldBackAgreement | null;
  /** What was taught last; null where nothing was. */
  model(): Promise<NamedModel | null>;
}
