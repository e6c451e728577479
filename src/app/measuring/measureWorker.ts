import type { CheckedPhoto, DeflatedMask, MeasureJob, MeasureOutcome } from '../../../workers/measureApi.ts';
import type { DecoderVerdict } from '../../core/photo-file/decoderSelfTest.ts';

/** A measuring worker as the pool handles it: the real one and those of the tests. */
export interface MeasureWorker {
  /**
   * @param onProgress called with the part done, 0..1: a sign of life
   * @param onChecked called once the photo was looked over, before it is measured
   */
  measure(
    job: MeasureJob,
    onProgress: (doneFraction: number) => void,
    onChecked: (checked: CheckedPhoto) => void,
  ): Promise<MeasureOutcome>;
  cancel(jobId: string): void;
  takeMask(jobId: string): Promise<DeflatedMask | null>;
  selfTest(): Promise<DecoderVerdict>;
  /** Ends it at once; promises given out stay open. */
  terminate(): void;
  /** Called when it failed outside any call, e.g. because its script could not be loaded. */
  onDeath(listener: (detail: string) => void): void;
}
