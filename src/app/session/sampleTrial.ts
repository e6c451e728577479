import { importArchive, inspectArchive } from './archive/importArchive.ts';
import { openSampleArchive } from './sampleArchive.ts';
import { SAMPLE_PREFIX } from './sampleId.ts';
import type { OpenPart } from './sessionPart.ts';

export interface SampleProgress {
  readonly photos: number;
  readonly photosDone: number;
}

export type SampleOutcome =
  | { readonly state: 'taken-in' }
  | { readonly state: 'cancelled' }
  /** There is another trial here. */
  | { readonly state: 'other-trial'; readonly here: string }
  | { readonly state: 'failed'; readonly reason: string };

/** Takes the sample trial in, as an archive: all of it or nothing. Its figures come with it, so nothing is measured. */
export const takeSampleTrial =
  (signal: AbortSignal, onProgress: (progress: SampleProgress) => void): OpenPart<SampleOutcome> =>
  async ({ store, goOn }) => {
    try {
      const looked = await inspectArchive(store, await openSampleArchive(signal));
      if (!looked.ok) {
        const { problem } = looked;
        if (problem.code === 'other-trial' && 'here' in problem) {
          return { state: 'other-trial', here: problem.here };
        }
        return { state: 'failed', reason: problem.code };
      }
      const result = await importArchive(store, looked.inspection, new Map(), {
        by: null,
        reason: 'sample trial',
        signal,
        onProgress,
      });
      if (!result.ok) return { state: 'failed', reason: result.problem.code };
      goOn();
      return { state: 'taken-in' };
    } catch (error) {
      if (signal.aborted) return { state: 'cancelled' };
      return { state: 'failed', reason: error instanceof Error ? error.message : String(error) };
    }
  };

/** Takes the sample trial away, with all that was tried on it. @returns why not; null when it is gone */
export const removeSampleTrial: OpenPart<string | null> = async ({ store }) => {
  const written = await store.sampleTrial.remove(SAMPLE_PREFIX);
  return written.written ? null : written.problem.code;
};
