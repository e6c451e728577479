import type { Page } from '@playwright/test';
import { sharedPath } from '../support/sharedFolder.ts';
import { measureInApp, openApp } from './openApp.ts';
import { memoryMib, renderersOf } from './process.ts';
import { samplePhotos } from './samplePhotos.ts';
import { withVariants } from './variants.ts';

/** Resident memory of the page's renderer process, MiB; null where the system or the photos are not there. */
export interface MemoryUse {
  readonly startMib: number | null;
  readonly onePhotoPeakMib: number | null;
  readonly twoWorkersPeakMib: number | null;
  /** Sample photos, one worker, after a garbage collection in page and worker. */
  readonly after50Mib: number | null;
  readonly after300Mib: number | null;
  readonly growthPercent: number | null;
}

const PHOTO_COUNT = 300;
const STEP = 50;

export async function measureMemory(): Promise<MemoryUse> {
  const folder = sharedPath('sample-photos/bench');
  const large = folder ? [`${folder}/bench-overcast.jpg`, `${folder}/bench-sun.jpg`] : null;
  const peak = async (cores: number, count: number) => {
    if (!large) return { start: null, peak: null };
    const app = await openApp(cores);
    try {
      const memory = async () => memoryMib((await renderersOf(app.browser)).processIds);
      const start = (await memory())?.now ?? null;
      await withVariants(large, count, (files) => measureInApp(app.page, files));
      return { start, peak: (await memory())?.peak ?? null };
    } finally {
      await app.close();
    }
  };
  const one = await peak(2, 1);
  const two = await peak(3, 6);
  const growth = await withVariants(samplePhotos(), PHOTO_COUNT, async (files) => {
    const app = await openApp(2);
    try {
      const { processIds } = await renderersOf(app.browser);
      const collectGarbage = await garbageCollector(app.page);
      const after: (number | null)[] = [];
      for (let done = 0; done < PHOTO_COUNT; done += STEP) {
        await measureInApp(app.page, files.slice(done, done + STEP));
        // what is garbage is given back when the browser likes; what stays after a collection is what counts
        await collectGarbage();
        await app.page.waitForTimeout(4000);
        after.push(memoryMib(processIds)?.now ?? null);
      }
      return { after50: after[0]!, after300: after.at(-1)! };
    } finally {
      await app.close();
    }
  });
  return {
    startMib: one.start,
    onePhotoPeakMib: one.peak,
    twoWorkersPeakMib: two.peak,
    after50Mib: growth.after50,
    after300Mib: growth.after300,
    growthPercent: growth.after50 && growth.after300 ? 100 * (growth.after300 / growth.after50 - 1) : null,
  };
}

/** A collection in the page and in all its workers, whose heaps it does not reach by itself. */
async function garbageCollector(page: Page): Promise<() => Promise<void>> {
  const session = await page.context().newCDPSession(page);
  const workers = new Set<string>();
  session.on('Target.attachedToTarget', ({ sessionId }) => workers.add(sessionId));
  session.on('Target.detachedFromTarget', ({ sessionId }) => workers.delete(sessionId));
  await session.send('Target.setAutoAttach', {
    autoAttach: true,
    waitForDebuggerOnStart: false,
    flatten: false,
  });
  return async () => {
    await session.send('HeapProfiler.collectGarbage');
    for (const sessionId of workers) {
      const message = JSON.stringify({ id: 1, method: 'HeapProfiler.collectGarbage' });
      await session.send('Target.sendMessageToTarget', { sessionId, message });
    }
  };
}
