import { readdirSync, readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';

/** Process id of the renderer that shows a page; null where there is no /proc. */
export async function rendererOf(page: Page): Promise<number | null> {
  // the page keeps its main thread busy for a moment; the renderer whose processor time grows most is its own
  const before = new Map(renderers().map((pid) => [pid, processorSeconds(pid) ?? 0]));
  if (before.size === 0) return null;
  await page.evaluate(() => {
    const end = performance.now() + 400;
    while (performance.now() < end);
  });
  const grown = renderers().map(
    (pid) => [pid, (processorSeconds(pid) ?? 0) - (before.get(pid) ?? 0)] as const,
  );
  return grown.sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;
}

function renderers(): number[] {
  try {
    return readdirSync('/proc')
      .filter((name) => /^\d+$/.test(name))
      .map(Number)
      .filter((pid) => readOf(pid, 'cmdline')?.includes('--type=renderer'));
  } catch {
    return [];
  }
}

function readOf(pid: number, file: string): string | null {
  try {
    return readFileSync(`/proc/${pid}/${file}`, 'utf8');
  } catch {
    return null;
  }
}

/** Processor time of all threads of a process so far; null where the system does not tell. */
export function processorSeconds(pid: number | null): number | null {
  const stat = pid === null ? null : readOf(pid, 'stat');
  if (!stat) return null;
  const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
  const ticksPerSecond = 100; // USER_HZ, fixed by the kernel's interface
  return (Number(fields[11]) + Number(fields[12])) / ticksPerSecond;
}

/** Resident memory of a process now and at its highest since the last reset. */
export function memoryMib(pid: number): { now: number; peak: number } | null {
  const status = readOf(pid, 'status');
  const field = (name: string) => Number(new RegExp(`${name}:\\s+(\\d+)`).exec(status ?? '')?.[1]) / 1024;
  return status ? { now: field('VmRSS'), peak: field('VmHWM') } : null;
}
