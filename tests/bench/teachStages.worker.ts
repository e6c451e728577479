import { paintMask } from '../../src/app/canvas/paintMask.ts';
import { fitView, placedView } from '../../src/app/canvas/view.ts';
import { type MeasureSettings, measuredBox, measurePhoto } from '../../src/core/cover/measurePhoto.ts';
import { type Detail, type NamedStroke, TeachingDesk } from '../../src/core/cover/teachingDesk.ts';
import type { PlotFrame } from '../../src/core/geometry/plotFrame.ts';
import { photoPoint } from '../../src/core/geometry/points.ts';
import type { LabelMask } from '../../src/core/raster/labelMask.ts';
import { DEFAULT_CLASSES } from '../../src/core/trial/defaultClasses.ts';
import { repeatableRandom } from '../../src/core/trial/repeatableRandom.ts';
import { decodePhoto } from '../../workers/decodePhoto.ts';

/** Times teaching on one photo in a browser worker. */
export interface TeachStagesRequest {
  readonly photo: string;
  readonly frame: PlotFrame;
  readonly repeats: number;
}

/** Milliseconds, one entry a repetition. */
export interface TeachStagesAnswer {
  readonly bareDecodeMs: readonly number[];
  /** File to cover with a taught model. */
  readonly taughtMs: readonly number[];
  /** From a stroke to the whole stage painted, by the preview and by all cells. */
  readonly strokeMs: Readonly<Record<'preview' | 'whole', readonly number[]>>;
  /** Cells that are labelled each way. */
  readonly cells: Readonly<Record<'preview' | 'whole', number>>;
  readonly coverPercent: readonly number[];
}

const CLASS_IDS = DEFAULT_CLASSES.map(({ id }) => id);
const STROKES_A_CLASS = 12;
/** As a person paints on a 12-megapixel photo. */
const RADIUS_PX = 18;
const LENGTH_PX = 160;
/** The stage of a window of 1440 x 900. */
const STAGE = { width: 1040, height: 680 };

/** Strokes that begin where the start model sees their class. */
function strokesFrom(mask: LabelMask): NamedStroke[] {
  const random = repeatableRandom(1);
  return CLASS_IDS.flatMap((classId, c) => {
    const strokes: NamedStroke[] = [];
    while (strokes.length < STROKES_A_CLASS) {
      const x = Math.floor(random() * (mask.widthPx - LENGTH_PX));
      const y = Math.floor(random() * mask.heightPx);
      const isClass = [0, LENGTH_PX / 2, LENGTH_PX].every(
        (dx) => mask.labels[y * mask.widthPx + x + dx] === c + 1,
      );
      if (!isClass) continue;
      const points = Array.from({ length: 20 }, (_, i) => photoPoint(x + (i * LENGTH_PX) / 20, y));
      strokes.push({ id: `${classId} ${strokes.length}`, classId, radiusPx: RADIUS_PX, points });
    }
    return strokes;
  });
}

addEventListener('message', async ({ data: request }: MessageEvent<TeachStagesRequest>) => {
  const { photo, frame, repeats } = request;
  const bytes = new Uint8Array(await (await fetch(`/files/${photo}`)).arrayBuffer());
  const warm = repeats + 2; // the first two runs warm the code up
  const bareDecodeMs: number[] = [];
  for (let i = 0; i < warm; i += 1) {
    const started = performance.now();
    (await createImageBitmap(new Blob([bytes]))).close();
    bareDecodeMs.push(performance.now() - started);
  }
  const settings: MeasureSettings = { classes: DEFAULT_CLASSES, frame, ignored: [], neutral: null };
  const decode = async () => {
    const decoded = await decodePhoto(bytes, measuredBox(settings));
    if (!decoded.ok) throw new Error(decoded.problem.code);
    return decoded.raster;
  };
  const raster = await decode();
  const start = await measurePhoto(raster, settings);
  if (!start.ok) throw new Error(start.problem.code);
  const strokes = strokesFrom(start.measurement.mask);
  const desk = new TeachingDesk();
  await desk.put(raster, { photoId: 'a', photoSha256: 'a', settings, strokes: [], isOpen: true });

  const picture = new Uint32Array(STAGE.width * STAGE.height);
  const view = fitView({ width: raster.widthPx, height: raster.heightPx }, STAGE);
  const style = { classes: DEFAULT_CLASSES, shown: new Set(CLASS_IDS), patterns: false, outlines: false };
  const strokeMs = { preview: [] as number[], whole: [] as number[] };
  const cells = { preview: 0, whole: 0 };
  for (const detail of ['preview', 'whole'] satisfies Detail[]) {
    for (let i = 0; i < warm; i += 1) {
      // all but the last stroke are known; the last one is new each time
      const last = strokes.at(-1)!;
      const painted = [...strokes.slice(0, -1), { ...last, id: `${detail} ${i}` }];
      desk.repaint('a', strokes.slice(0, -1));
      const began = performance.now();
      desk.repaint('a', painted);
      const lesson = desk.teach(['a'], CLASS_IDS);
      const { placed } = desk.apply('a', detail)!;
      paintMask(placed.mask, placedView(view, placed), style, picture, STAGE.width);
      strokeMs[detail].push(performance.now() - began);
      if (!lesson.ok) throw new Error(lesson.problem.code);
      cells[detail] = placed.mask.labels.length;
    }
  }

  const taught = { id: 'bench', model: desk.model! };
  const taughtMs: number[] = [];
  let coverPercent: number[] = [];
  for (let i = 0; i < warm; i += 1) {
    const began = performance.now();
    const result = await measurePhoto(
      await decode(),
      { ...settings, modelId: taught.id },
      { taught, photoSha256: 'a' },
    );
    if (!result.ok) throw new Error(result.problem.code);
    taughtMs.push(performance.now() - began);
    coverPercent = result.measurement.cover.map(({ coverFraction }) => 100 * coverFraction);
  }
  const kept = (values: readonly number[]) => values.slice(2);
  postMessage({
    bareDecodeMs: kept(bareDecodeMs),
    taughtMs: kept(taughtMs),
    strokeMs: { preview: kept(strokeMs.preview), whole: kept(strokeMs.whole) },
    cells,
    coverPercent,
  } satisfies TeachStagesAnswer);
});
