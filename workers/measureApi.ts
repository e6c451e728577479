import type {
  Measurement,
  MeasureProblem,
  MeasureSettings,
  NamedModel,
} from '../src/core/cover/measurePhoto.ts';
import type { DecoderVerdict } from '../src/core/photo-file/decoderSelfTest.ts';
import type { PhotoProblem } from '../src/core/photo-file/photoProblem.ts';
import type { FindRequest, PhotoCheck, SettledArea } from '../src/core/quality/checkPhoto.ts';
import type { LabelMask } from '../src/core/raster/labelMask.ts';

/** What the page asks of a measuring worker. `bytes` is transferred: the sender no longer owns it. */
export interface MeasureJob {
  readonly jobId: string;
  /** The photo file, byte for byte as it came from the camera. */
  readonly bytes: ArrayBuffer;
  readonly settings: MeasureSettings;
  /** What is to be found before measuring; what is found and can be used becomes part of the settings. */
  readonly find: FindRequest;
  readonly photoSha256: string;
  /** The model the settings name; null for the start model. */
  readonly taught: NamedModel | null;
  /** Longer side of the thumbnail to make as well; 0 for none. */
  readonly thumbnailPx: number;
  /** Whether the mask itself is wanted at once, for a screen that shows the photo. */
  readonly wantMask: boolean;
}

/** What decoding told about a photo. */
export interface DecodedFacts {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Local time as the camera wrote it, YYYY-MM-DDTHH:MM:SS without a zone; null where it wrote none. */
  readonly takenAt: string | null;
}

/** What was found in a photo before it is measured, told as soon as it is known. */
export interface CheckedPhoto {
  readonly check: PhotoCheck;
  /** What the photo is now measured in. */
  readonly area: SettledArea;
}

/** Thumbnail of the upright photo as a JPEG file. */
export interface Thumbnail {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly jpeg: ArrayBuffer;
}

export type MeasureOutcome =
  | {
      readonly state: 'done';
      readonly facts: DecodedFacts;
      /** As `onChecked` was told, in case that message comes later. */
      readonly checked: CheckedPhoto;
      readonly measurement: Omit<Measurement, 'mask'>;
      readonly mask: LabelMask | null;
      readonly thumbnail: Thumbnail | null;
      readonly timings: Readonly<Record<'decodeMs' | 'readBackMs' | 'measureMs', number>>;
    }
  | {
      readonly state: 'failed';
      readonly problem: PhotoProblem | MeasureProblem;
      readonly facts: DecodedFacts | null;
      readonly checked: CheckedPhoto | null;
      readonly thumbnail: Thumbnail | null;
    }
  | { readonly state: 'cancelled' };

/** A label mask for keeping: its runs (core/raster/labelRuns.ts), deflated without a header (RFC 1951). */
export interface DeflatedMask {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly bytes: ArrayBuffer;
}

/** A measuring worker as the page sees it. It does one job at a time. */
export interface MeasureApi {
  /**
   * @param onProgress called between strips with the part that is done, 0..1
   * @param onChecked called once the photo was looked over, long before it is measured
   * @returns expected trouble as a value; what is thrown was not foreseen
   */
  measure(
    job: MeasureJob,
    onProgress: (doneFraction: number) => void,
    onChecked: (checked: CheckedPhoto) => void,
  ): Promise<MeasureOutcome>;
  /** Stops a job at its next strip. */
  cancel(jobId: string): void;
  /** The mask of the last job done; null where that was another one. It can be taken once. */
  takeMask(jobId: string): Promise<DeflatedMask | null>;
  /** Whether this browser decodes photos to the pixels the figures were validated on. */
  selfTest(): Promise<DecoderVerdict>;
}
