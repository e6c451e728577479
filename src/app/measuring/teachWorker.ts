import { transfer, wrap } from 'comlink';
import type {
  LessonOutcome,
  LessonRequest,
  ReadPhotoJob,
  ReadPhotoOutcome,
  TeachApi,
} from '../../../workers/teachApi.ts';
import type { HeldBackAgreement } from '../../core/classifier/heldBackAgreement.ts';
import type { NamedModel } from '../../core/cover/measurePhoto.ts';
import type { AppliedLesson } from '../../core/cover/teachingDesk.ts';

/** A teaching worker as the session handles it: the real one and those of the tests. See TeachApi. */
export interface TeachWorker {
  read(job: ReadPhotoJob): Promise<ReadPhotoOutcome>;
  teach(request: LessonRequest): Promise<LessonOutcome>;
  apply(photoId: string, detail: 'whole' | 'small'): Promise<AppliedLesson | null>;
  agreement(): Promise<HeldBackAgreement | null>;
  model(): Promise<NamedModel | null>;
  /** Ends it at once; promises given out stay open. */
  terminate(): void;
  /** Called when it failed outside any call. */
  onDeath(listener: (detail: string) => void): void;
}

/** Starts a worker of the browser's. */
export function startTeachWorker(): TeachWorker {
  const worker = new Worker(new URL('../../../workers/teach.worker.ts', import.meta.url), {
    type: 'module',
    name: 'teach',
  });
  const api = wrap<TeachApi>(worker);
  return {
    read: (job) => api.read(transfer(job, [job.bytes])),
    teach: (request) => api.teach(request),
    apply: (photoId, detail) => api.apply(photoId, detail),
    agreement: () => api.agreement(),
    model: () => api.model(),
    terminate: () => worker.terminate(),
    onDeath(listener) {
      worker.addEventListener('error', (event) => listener(event.message ?? 'the worker did not start'));
      worker.addEventListener('messageerror', () => listener('a message could not be read'));
    },
  };
}
