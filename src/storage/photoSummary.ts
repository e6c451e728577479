import type { CoverFlag } from '../core/classifier/classification.ts';
import type { DoubtReason } from '../core/classifier/taughtDoubts.ts';
import type { MeasureProblem, MeasureSettings } from '../core/cover/measurePhoto.ts';
import type { TurfColour } from '../core/cover/turfColour.ts';
import type { PlotFrame } from '../core/geometry/plotFrame.ts';
import type { PhotoProblem } from '../core/photo-file/photoProblem.ts';
import type { PhotoQuality } from '../core/quality/photoQuality.ts';
import type { CoverClass } from '../core/trial/coverClass.ts';
import type { GapRule } from '../core/trial/trial.ts';

/** Why a photo has no figure although nothing is known to be wrong with its file. */
export type WorkerProblem =
  /** The worker, or the whole page, died while it measured this photo. */
  | { readonly code: 'worker-died'; readonly attempts: number }
  /** Not foreseen; the text is for a report, not for people to act on. */
  | { readonly code: 'unexpected'; readonly name: string; readonly message: string }
  /** The store no longer holds the photo's bytes. */
  | { readonly code: 'photo-bytes-missing' };

export type FigureProblem = PhotoProblem | MeasureProblem | WorkerProblem;

/** How a figure came about. */
export type FigureMethod = 'automatic' | 'corrected' | 'points' | 'adjusted' | 'visual';

/** Cover of one photo with all that is needed to make the figure again. */
export interface Figure {
  readonly id: string;
  /** One entry a class, in the order of the settings. */
  readonly cover: readonly {
    readonly classId: string;
    /** Of a figure by points: points called as the class. */
    readonly pixels: number;
    /** Share of measured ground, 0..1. */
    readonly coverFraction: number;
    /** 95 % interval, where the method has a validated error. */
    readonly lowFraction?: number | undefined;
    readonly highFraction?: number | undefined;
  }[];
  readonly flags: readonly CoverFlag[];
  /** Why a taught model doubts the figure, worst first; left out where it does not. */
  readonly reasons?: readonly DoubtReason[] | undefined;
  /** Of an automatic figure; left out by those made before it was kept. */
  readonly turfColour?: TurfColour | null | undefined;
  /** Of a figure by points: points judged. */
  readonly measuredPixels: number;
  readonly millimetresPerPixel: number | null;
  readonly modelId: string;
  readonly method: FigureMethod;
  /** ISO 8601 instant, UTC. */
  readonly measuredAt: string;
  readonly softwareVersion: string;
  /** What decoded the photo, and whether it passed the self-test. */
  readonly decoder: string;
  readonly settings: MeasureSettings;
  readonly photoSha256: string;
  /** Of the correction layer that is part of the figure; null without corrections. */
  readonly correctionsSha256: string | null;
  /** Of a corrected figure: share of measured ground whose class was changed by hand. */
  readonly changedFraction?: number | undefined;
}

/** What a list shows of a photo: small, without its bytes. */
export interface PhotoSummary {
  readonly id: string;
  /** File name as it came. */
  readonly name: string;
  readonly plot: string | null;
  /** Place of the frame in the plot, 1..; null where it is not known or there is but one. */
  readonly place: number | null;
  /** Calendar day, YYYY-MM-DD. */
  readonly ratingDate: string | null;
  /** Where it belonged before another photo was taken in its place; null for photos that count. */
  readonly replaced: {
    readonly plot: string;
    readonly place: number | null;
    readonly ratingDate: string;
  } | null;
  /** Whether its bytes have left this device in an archive. */
  readonly exported: boolean;
  /** Where plot and date came from. */
  readonly namedBy: 'file-name' | 'exif' | 'walking-order' | 'label' | 'person' | null;
  /** Local time as the camera wrote it, YYYY-MM-DDTHH:MM:SS without a zone. */
  readonly takenAt: string | null;
  /** What the file says of the camera; null for photos taken in before this was kept. */
  readonly camera: {
    readonly device: string | null;
    readonly utcOffsetMinutes: number | null;
    /** A time it wrote that is none of this age. */
    readonly unreadableTime?: string | undefined;
  } | null;
  /** Texts of the plot labels in it; null while they were not looked for. */
  readonly labelTexts: readonly string[] | null;
  /** Size of the upright photo. */
  readonly widthPx: number | null;
  readonly heightPx: number | null;
  readonly frame: PlotFrame | null;
  /** Who settled the frame, or that the whole photo is measured; `finder` is not yet confirmed. Null: nobody has. */
  readonly frameBy: 'finder' | 'finder-confirmed' | 'person' | 'file' | null;
  /** A frame that was found and is not sure enough to be used unasked; null where there is none. */
  readonly offeredFrame: PlotFrame['corners'] | null;
  /** Fitness for measuring; null where the photo was not looked over yet. */
  readonly verdict: PhotoQuality['verdict'] | null;
  /** What it is to be measured in: the classes of its trial and their rule for gaps. */
  readonly classes: readonly CoverClass[];
  readonly gapRule: GapRule;
  /** The taught model it is to be measured with; null for the start model. */
  readonly modelId: string | null;
  /** A model was taken for it that was taught on other classes: the start model measures it. */
  readonly modelSetAside: boolean;
  /** The automatic figure. */
  readonly figure: Figure | null;
  /** The newest figure of each method. */
  readonly figures: Readonly<Partial<Record<FigureMethod, Figure>>>;
  readonly work: 'waiting' | 'running' | 'failed' | 'paused' | null;
  readonly problem: FigureProblem | null;
  /** Settings changed since the figure was made. */
  readonly stale: boolean;
  /** Of the settings that changed: the trial's classes or rule for gaps. */
  readonly definitionChanged: boolean;
}
