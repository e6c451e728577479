import { checkPhoto, type FindRequest } from '../../src/core/quality/checkPhoto.ts';
import { decodePhoto } from '../../workers/decodePhoto.ts';

/** Times the way of a photo file to its verdict in a browser worker. */
export interface CheckRequest {
  readonly photo: string;
  readonly repeats: number;
}

/** Milliseconds, one entry a repetition, the first two left out. */
export interface CheckAnswer {
  readonly bareDecodeMs: readonly number[];
  readonly decodeMs: readonly number[];
  readonly readBackMs: readonly number[];
  readonly checkMs: readonly number[];
  readonly totalMs: readonly number[];
  readonly found: boolean;
  readonly verdict: string;
}

const FIND: FindRequest = { frame: true, greyCard: true, frameSizeMm: [1000, 1000] };
const NOTHING = { frame: null, ignored: [], neutral: null };

addEventListener('message', async ({ data: { photo, repeats } }: MessageEvent<CheckRequest>) => {
  const bytes = new Uint8Array(await (await fetch(`/files/${photo}`)).arrayBuffer());
  const times: Record<'bareDecodeMs' | 'decodeMs' | 'readBackMs' | 'checkMs' | 'totalMs', number[]> = {
    bareDecodeMs: [],
    decodeMs: [],
    readBackMs: [],
    checkMs: [],
    totalMs: [],
  };
  let [found, verdict] = [false, ''];
  for (let i = 0; i < repeats + 2; i += 1) {
    const bare = performance.now();
    (await createImageBitmap(new Blob([bytes]))).close();
    times.bareDecodeMs.push(performance.now() - bare);
    const started = performance.now();
    const decoded = await decodePhoto(bytes);
    if (!decoded.ok) throw new Error(decoded.problem.code);
    const before = performance.now();
    const { check } = checkPhoto(decoded.raster, bytes, NOTHING, FIND);
    const end = performance.now();
    times.decodeMs.push(decoded.timings.decodeMs);
    times.readBackMs.push(decoded.timings.readBackMs);
    times.checkMs.push(end - before);
    times.totalMs.push(end - started);
    found = check.frame?.found ?? false;
    verdict = check.quality.verdict;
  }
  const warm = Object.fromEntries(
    Object.entries(times).map(([stage, values]) => [stage, values.slice(2)]),
  ) as unknown as typeof times;
  postMessage({ ...warm, found, verdict } satisfies CheckAnswer);
});
