import { classifyWithStartModel } from '../../src/core/classifier/startModel.ts';
import { coverOfMask } from '../../src/core/cover/coverOfMask.ts';
import { measuredBox } from '../../src/core/cover/measurePhoto.ts';
import { measuredArea } from '../../src/core/geometry/measuredArea.ts';
import type { PlotFrame } from '../../src/core/geometry/plotFrame.ts';
import { checkPhoto } from '../../src/core/quality/checkPhoto.ts';
import { DEFAULT_CLASSES } from '../../src/core/trial/defaultClasses.ts';
import { decodePhoto } from '../../workers/decodePhoto.ts';

/** Times the stages of one photo in a browser worker. Milliseconds, one entry a repetition. */
export interface StagesRequest {
  readonly photo: string;
  readonly frame: PlotFrame;
  readonly repeats: number;
  /** Stops after the browser's own decode: for its processor time. @default false */
  readonly decodeOnly?: boolean;
  /** Frame and card are looked for first, as in a photo that was just added; else the frame is settled. @default false */
  readonly find?: boolean;
}

export interface StagesAnswer {
  /** Median of `createImageBitmap` alone in this worker, warm. */
  readonly bareDecodeMs: readonly number[];
  readonly stages: Readonly<Record<string, readonly number[]>>;
  readonly totalMs: readonly number[];
  readonly coverPercent: readonly number[];
}

addEventListener('message', async ({ data: request }: MessageEvent<StagesRequest>) => {
  const bytes = new Uint8Array(await (await fetch(`/files/${request.photo}`)).arrayBuffer());
  const bareDecodeMs: number[] = [];
  for (let i = 0; i < request.repeats + 2; i += 1) {
    const started = performance.now();
    (await createImageBitmap(new Blob([bytes]))).close();
    bareDecodeMs.push(performance.now() - started);
  }
  const settings = { classes: DEFAULT_CLASSES, frame: request.frame, ignored: [], neutral: null };
  const stages: Record<string, number[]> = {};
  const totalMs: number[] = [];
  let coverPercent: number[] = [];
  for (let i = 0; i < request.repeats + 2 && !request.decodeOnly; i += 1) {
    const note = (stage: string, ms: number) => {
      stages[stage] ??= [];
      stages[stage].push(ms);
    };
    const started = performance.now();
    // as the measuring worker does it
    const decoded = await decodePhoto(bytes, request.find ? null : measuredBox(settings));
    if (!decoded.ok) throw new Error(decoded.problem.code);
    note('decode', decoded.timings.decodeMs);
    note('read back', decoded.timings.readBackMs);
    let last = performance.now();
    const lap = (stage: string) => {
      note(stage, performance.now() - last);
      last = performance.now();
    };
    const { raster } = decoded;
    const asked = request.find ? { ...settings, frame: null } : settings;
    const found = checkPhoto(raster, bytes, asked, {
      frame: request.find === true,
      greyCard: request.find === true,
      frameSizeMm: request.frame.sizeMm,
    }).settings;
    if (!found.frame) throw new Error(`the frame of ${request.photo} was not found`);
    lap('check');
    const area = measuredArea(raster.widthPx, raster.heightPx, found);
    lap('measured area');
    const { mask } = await classifyWithStartModel({
      raster,
      area,
      classes: DEFAULT_CLASSES,
      neutralGains: null,
    });
    lap('start model');
    coverPercent = coverOfMask(mask, area, DEFAULT_CLASSES.length)!.map(
      ({ coverFraction }) => 100 * coverFraction,
    );
    lap('cover');
    totalMs.push(performance.now() - started);
  }
  // the first two runs warm the code up
  const warm = (values: readonly number[]) => values.slice(2);
  postMessage({
    bareDecodeMs: warm(bareDecodeMs),
    stages: Object.fromEntries(Object.entries(stages).map(([stage, values]) => [stage, warm(values)])),
    totalMs: warm(totalMs),
    coverPercent,
  } satisfies StagesAnswer);
});
