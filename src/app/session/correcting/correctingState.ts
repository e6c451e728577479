import type { PixelRuns } from '../../../core/geometry/pixelRuns.ts';
import type { BrushPoint } from '../../../core/mask/brushRuns.ts';
import type { CorrectionBytesProblem } from '../../../core/mask/correctionBytes.ts';
import type { CorrectionSummary } from '../../../core/mask/correctionSummary.ts';
import type { CoverClass } from '../../../core/trial/coverClass.ts';
import type { CorrectionPatchRecord } from '../../../storage/records/correctionRecords.ts';

/** Which tool made a gesture. */
export type GestureKind = 'brush' | 'outline' | 'patch' | 'likeness' | 'smooth' | 'change-class';

/** A gesture as the record shows it. */
export interface KeptGesture extends Pick<CorrectionPatchRecord, 'sequence' | 'by' | 'at' | 'reason'> {
  readonly gesture: string;
  readonly pixels: number;
}

/** Cover in class order, 0..1: as computed and with what hands said. */
export interface BothCovers {
  readonly automatic: readonly number[];
  readonly corrected: readonly number[];
}

/** Why the last change is not to be seen. */
export type CorrectingNotice =
  /** Another tab changed this photo first; what it stored is shown now. */
  | { readonly code: 'other-tab-was-first' }
  /** Another tab changed this photo; that is shown now. */
  | { readonly code: 'changed-in-other-tab' }
  /** The browser could not store it; what is stored is shown now. */
  | { readonly code: 'not-stored' }
  /** The worker that fills regions stopped. */
  | { readonly code: 'worker-stopped'; readonly detail: string }
  /** Nothing is measured where the fill was to begin. */
  | { readonly code: 'nothing-there' };

export interface CorrectingState {
  readonly phase: 'opening' | 'no-mask' | 'ready' | 'unreadable';
  /** Of `unreadable`. */
  readonly problem: CorrectionBytesProblem | null;
  readonly classes: readonly CoverClass[];
  readonly covers: BothCovers | null;
  /** Brought up to date when hands rest. */
  readonly summary: CorrectionSummary | null;
  /** In force, the newest first. */
  readonly gestures: readonly KeptGesture[];
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  /** A fill is being worked out. */
  readonly busy: boolean;
  /** Gestures that are on their way into the store. */
  readonly unstored: number;
  readonly notice: CorrectingNotice | null;
  /** What growth by likeness would reach. */
  readonly preview: PixelRuns | null;
}

/** A brush on its way over the mask. */
export interface Stroke {
  moveTo(point: BrushPoint): void;
  end(): void;
  cancel(): void;
}
