import { transfer, wrap } from 'comlink';
import type { CorrectApi, ReadOutcome } from '../../../workers/correctApi.ts';
import type { MeasureSettings } from '../../core/cover/measurePhoto.ts';
import type { PixelBox } from '../../core/geometry/pixelBox.ts';
import type { PixelRuns } from '../../core/geometry/pixelRuns.ts';
import type { PhotoPoint } from '../../core/geometry/points.ts';
import type { LikenessField } from '../../core/mask/colourLikeness.ts';
import type { LabelMask } from '../../core/raster/labelMask.ts';

/** The worker of hand corrections as the session handles it: the real one and those of the tests. See CorrectApi. */
export interface CorrectWorker {
  read(bytes: ArrayBuffer, settings: MeasureSettings): Promise<ReadOutcome>;
  /** The mask is copied, so it may change meanwhile. */
  patch(mask: LabelMask, seed: PhotoPoint): Promise<PixelRuns>;
  majority(mask: LabelMask, classCount: number, region: PixelRuns, radiusPx: number): Promise<PixelRuns[]>;
  likeness(seed: PhotoPoint, box: PixelBox): Promise<LikenessField | null>;
  terminate(): void;
  /** Called when it failed outside any call. */
  onDeath(listener: (detail: string) => void): void;
}

/** Starts a worker of the browser's. */
export function startCorrectWorker(): CorrectWorker {
  const worker = new Worker(new URL('../../../workers/correct.worker.ts', import.meta.url), {
    type: 'module',
    name: 'correct',
  });
  const api = wrap<CorrectApi>(worker);
  const copy = ({ labels, ...size }: LabelMask): LabelMask => {
    const own = labels.slice();
    return transfer({ ...size, labels: own }, [own.buffer]);
  };
  return {
    read: (bytes, settings) => api.read(transfer(bytes, [bytes]), settings),
    patch: (mask, seed) => api.patch(copy(mask), seed),
    majority: (mask, classCount, region, radiusPx) => api.majority(copy(mask), classCount, region, radiusPx),
    likeness: (seed, box) => api.likeness(seed, box),
    terminate: () => worker.terminate(),
    onDeath(listener) {
      worker.addEventListener('error', (event) => listener(event.message ?? 'the worker did not start'));
      worker.addEventListener('messageerror', () => listener('a message could not be read'));
    },
  };
}
