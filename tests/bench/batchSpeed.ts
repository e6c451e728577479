import { longestMainThreadTaskMs } from './mainThread.ts';
import { measureInApp, openApp } from './openApp.ts';
import { samplePhotos } from './samplePhotos.ts';

/** The 64 sample photos through the built page. */
export interface BatchSpeed {
  readonly photos: number;
  readonly oneWorkerSeconds: number;
  readonly twoWorkersSeconds: number;
  readonly speedUp: number;
  /** Longest task of the page's main thread while the batch ran, thread time. */
  readonly longestTaskMs: number;
}

export async function measureBatchSpeed(): Promise<BatchSpeed> {
  const photos = samplePhotos();
  const timed = async (cores: number) => {
    const app = await openApp(cores);
    try {
      // one photo first: the worker starts and its code is compiled
      await measureInApp(app.page, photos.slice(0, 1));
      return await measureInApp(app.page, photos.slice(1));
    } finally {
      await app.close();
    }
  };
  const oneWorkerSeconds = await timed(2);
  const twoWorkersSeconds = await timed(3);
  const app = await openApp(2);
  try {
    const longestTaskMs = await longestMainThreadTaskMs(app, () => measureInApp(app.page, photos));
    const speedUp = oneWorkerSeconds / twoWorkersSeconds;
    return { photos: photos.length - 1, oneWorkerSeconds, twoWorkersSeconds, speedUp, longestTaskMs };
  } finally {
    await app.close();
  }
}
