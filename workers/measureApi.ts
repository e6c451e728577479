import type { Measurement, MeasureProblem, MeasureSettings } from '../src/core/cover/measurePhoto.ts';
import type { PhotoProblem } from '../src/core/photo-file/photoProblem.ts';

/** What the page asks of a measuring worker. `bytes` is transferred: the sender no longer owns it. */
export interface MeasureJob {
  readonly jobId: string;
  /** The photo file, byte for byte as it came from the camera. */
  readonly bytes: ArrayBuffer;
  readonly settings: MeasureSettings;
  /** Longer side of the thumbnail to make as well; 0 for none. */
  readonly thumbnailPx: number;
}

export interface DecodedSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Thumbnail of the upright photo as a JPEG file. */
export interface Thumbnail extends DecodedSize {
  readonly jpeg: ArrayBuffer;
}

export type MeasureOutcome =
  | {
      readonly state: 'done';
      readonly size: DecodedSize;
      readonly measurement: Measurement;
      readonly thumbnail: Thumbnail | null;
      readonly timings: Readonly<Record<'decodeMs' | 'readBackMs' | 'measureMs', number>>;
    }
  | {
      readonly state: 'failed';
      readonly problem: PhotoProblem | MeasureProblem;
      readonly size: DecodedSize | null;
    }
  | { readonly state: 'cancelled' };
