import { wrap } from 'comlink';
import type { CompareApi } from '../../../workers/compareApi.ts';
import type {
  ClassOverDates,
  ComparisonOptions,
  DateComparison,
  RatedObservation,
} from '../../core/statistics/compareTrial.ts';
import type { PlotResidual } from '../../core/statistics/plotResiduals.ts';

/** A worker that compares treatments, as the session handles it: the real one and those of the tests. See CompareApi. */
export interface CompareWorker {
  put(
    name: string,
    observations: readonly RatedObservation[],
    options: ComparisonOptions,
  ): Promise<readonly string[]>;
  onDate(name: string, ratingDate: string): Promise<DateComparison>;
  overDates(name: string): Promise<ClassOverDates | null>;
  residuals(name: string, ratingDate: string): Promise<readonly PlotResidual[]>;
  /** Ends it at once; promises given out stay open. */
  terminate(): void;
  /** Called when it failed outside any call. */
  onDeath(listener: (detail: string) => void): void;
}

/** Starts a worker of the browser's. */
export function startCompareWorker(): CompareWorker {
  const worker = new Worker(new URL('../../../workers/compare.worker.ts', import.meta.url), {
    type: 'module',
    name: 'compare',
  });
  const api = wrap<CompareApi>(worker);
  return {
    put: (name, observations, options) => api.put(name, observations, options),
    onDate: (name, ratingDate) => api.onDate(name, ratingDate),
    overDates: (name) => api.overDates(name),
    residuals: (name, ratingDate) => api.residuals(name, ratingDate),
    terminate: () => worker.terminate(),
    onDeath(listener) {
      worker.addEventListener('error', (event) => listener(event.message ?? 'the worker did not start'));
      worker.addEventListener('messageerror', () => listener('a message could not be read'));
    },
  };
}
