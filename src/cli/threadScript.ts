/** The bundle of measureWorker.ts beside the bundle of main.ts. */
export const THREAD_SCRIPT = new URL('./measureWorker.js', import.meta.url);
