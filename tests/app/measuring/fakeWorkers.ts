import type { MeasureWorker } from '../../../src/app/measuring/measureWorker.ts';
import type { MeasureSettings } from '../../../src/core/cover/measurePhoto.ts';
import type { DecoderVerdict } from '../../../src/core/photo-file/decoderSelfTest.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import type { CheckedPhoto, DeflatedMask, MeasureJob, MeasureOutcome } from '../../../workers/measureApi.ts';

export const SETTINGS: MeasureSettings = {
  classes: DEFAULT_CLASSES,
  frame: null,
  ignored: [],
  neutral: null,
};

/** What it found: nothing. */
const CHECK: CheckedPhoto['check'] = {
  frame: { found: false, reason: 'no-frame' },
  greyCard: null,
  balance: null,
  quality: {
    verdict: 'good',
    findings: [],
    measures: {
      clippedLightsFraction: 0,
      clippedShadowsFraction: 0,
      medianGreen: 90,
      millimetresPerPixel: null,
      detail: null,
      tiltDegrees: null,
      shadow: { lightRatio: 1, darkFraction: 0 },
    },
  },
};

/** What a worker answers about a photo of 2 x 1 pixels. */
export function doneOutcome(settings: MeasureSettings = SETTINGS, wantMask = false): MeasureOutcome {
  return {
    state: 'done',
    facts: { widthPx: 2, heightPx: 1, takenAt: '2027-05-17T09:14:20' },
    checked: { check: CHECK, area: settings },
    measurement: {
      measuredPixels: 2,
      millimetresPerPixel: null,
      cover: [
        { classId: 'ryegrass', pixels: 1, coverFraction: 0.5 },
        { classId: 'weedy-grass', pixels: 1, coverFraction: 0.5 },
        { classId: 'bare-ground', pixels: 0, coverFraction: 0 },
      ],
      turfColour: null,
      flags: [],
      reasons: [],
      modelId: 'start-1',
      settings,
    },
    mask: wantMask ? { widthPx: 2, heightPx: 1, labels: new Uint8Array([1, 2]) } : null,
    thumbnail: { widthPx: 2, heightPx: 1, jpeg: new ArrayBuffer(4) },
    timings: { decodeMs: 1, readBackMs: 1, measureMs: 1 },
  };
}

/** A worker that does what the test says, when it says so. */
export class FakeWorker implements MeasureWorker {
  readonly jobs: MeasureJob[] = [];
  readonly cancelled: string[] = [];
  terminated = false;
  readonly mask: DeflatedMask = { widthPx: 2, heightPx: 1, bytes: new ArrayBuffer(5) };
  #answer: ((outcome: MeasureOutcome) => void) | null = null;
  #throw: ((error: Error) => void) | null = null;
  #onProgress: (doneFraction: number) => void = () => {};
  #onDeath: (detail: string) => void = () => {};
  readonly #starts: boolean;

  constructor({ starts = true } = {}) {
    this.#starts = starts;
  }

  measure(job: MeasureJob, onProgress: (doneFraction: number) => void): Promise<MeasureOutcome> {
    if (this.#answer) throw new Error('a worker does one job at a time');
    this.jobs.push(job);
    this.#onProgress = onProgress;
    return new Promise<MeasureOutcome>((resolve, reject) => {
      this.#answer = resolve;
      this.#throw = reject;
    }).finally(() => {
      this.#answer = null;
    });
  }

  get isMeasuring(): boolean {
    return this.#answer !== null && !this.terminated;
  }

  answer(
    outcome: MeasureOutcome = doneOutcome(this.jobs.at(-1)?.settings, this.jobs.at(-1)?.wantMask),
  ): void {
    this.#answer!(outcome);
  }

  throw(error: Error): void {
    this.#throw!(error);
  }

  progress(doneFraction: number): void {
    this.#onProgress(doneFraction);
  }

  die(detail = 'out of memory'): void {
    this.#onDeath(detail);
  }

  cancel(jobId: string): void {
    this.cancelled.push(jobId);
  }

  takeMask = async (jobId: string): Promise<DeflatedMask | null> =>
    this.jobs.at(-1)?.jobId === jobId ? this.mask : null;

  selfTest = (): Promise<DecoderVerdict> =>
    this.#starts ? Promise.resolve({ state: 'same' }) : new Promise(() => {});

  terminate(): void {
    this.terminated = true;
  }

  onDeath(listener: (detail: string) => void): void {
    this.#onDeath = listener;
    if (!this.#starts) queueMicrotask(() => listener('the script could not be loaded'));
  }
}

/** Starts fake workers and keeps them. */
export function fakeWorkers(options?: { starts: boolean }) {
  const workers: FakeWorker[] = [];
  const startWorker = () => {
    const worker = new FakeWorker(options);
    workers.push(worker);
    return worker;
  };
  return { workers, startWorker };
}

/** A watchdog's clock that ticks by hand. */
export function handClock() {
  const ticks = new Set<() => void>();
  return {
    every: (_intervalMs: number, tick: () => void) => {
      ticks.add(tick);
      return () => void ticks.delete(tick);
    },
    tick(times: number) {
      for (let i = 0; i < times; i += 1) for (const tick of ticks) tick();
    },
  };
}
