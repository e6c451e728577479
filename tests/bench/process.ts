import { readFileSync } from 'node:fs';
import type { Browser } from '@playwright/test';

/** The renderer processes of one browser, as it tells itself. */
export interface Renderers {
  /** Processor time of all threads since they started. */
  readonly processorSeconds: number;
  readonly processIds: readonly number[];
}

export async function renderersOf(browser: Browser): Promise<Renderers> {
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  await session.detach();
  const renderers = processInfo.filter(({ type }) => type === 'renderer');
  return {
    processorSeconds: renderers.reduce((sum, { cpuTime }) => sum + cpuTime, 0),
    processIds: renderers.map(({ id }) => id),
  };
}

/** Resident memory of the largest of some processes, now and at its highest; null where there is no /proc. */
export function memoryMib(processIds: readonly number[]): { now: number; peak: number } | null {
  let largest: { now: number; peak: number } | null = null;
  for (const id of processIds) {
    let status: string;
    try {
      status = readFileSync(`/proc/${id}/status`, 'utf8');
    } catch {
      continue;
    }
    const field = (name: string) => Number(new RegExp(`${name}:\\s+(\\d+)`).exec(status)?.[1]) / 1024;
    const memory = { now: field('VmRSS'), peak: field('VmHWM') };
    if (!largest || memory.peak > largest.peak) largest = memory;
  }
  return largest;
}
