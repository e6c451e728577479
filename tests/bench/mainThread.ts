import type { OpenApp } from './openApp.ts';

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** Microseconds on the wall and on the thread. */
  readonly dur?: number;
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

/** The longest task of a page's main thread while `work` runs, thread time, from the browser's own trace. */
export async function longestMainThreadTaskMs(
  { browser, page }: OpenApp,
  work: () => Promise<unknown>,
): Promise<number> {
  await browser.startTracing(page, { categories: ['toplevel', '__metadata'] });
  await work();
  const trace: { traceEvents: TraceEvent[] } = JSON.parse((await browser.stopTracing()).toString());
  const threads = new Set(
    trace.traceEvents
      .filter(({ name, args }) => name === 'thread_name' && args?.name === 'CrRendererMain')
      .map(({ pid, tid }) => `${pid} ${tid}`),
  );
  const tasks = trace.traceEvents.filter(
    ({ name, ph, pid, tid }) => ph === 'X' && /RunTask$/.test(name) && threads.has(`${pid} ${tid}`),
  );
  if (tasks.length === 0) throw new Error('the trace holds no task of a main thread');
  return tasks.reduce((longest, { tdur, dur }) => Math.max(longest, (tdur ?? dur ?? 0) / 1000), 0);
}
