import { readFileSync } from 'node:fs';
import { deflateRawSync } from 'node:zlib';
import { sha256Of } from '../../src/app/session/sha256Of.ts';
import { decodePhoto } from '../../src/cli/decodePhoto.ts';
import { fitCoverModel, type TeachingPhoto } from '../../src/core/classifier/coverModel.ts';
import { coverOfMask } from '../../src/core/cover/coverOfMask.ts';
import { type MeasureSettings, measurePhoto, type NamedModel } from '../../src/core/cover/measurePhoto.ts';
import { teachOnPhoto } from '../../src/core/cover/teachOnPhoto.ts';
import { coverModelId } from '../../src/core/exchange/coverModel.ts';
import { readPhotoAnnotations } from '../../src/core/exchange/photoAnnotations.ts';
import { measuredArea } from '../../src/core/geometry/measuredArea.ts';
import { areaOfMask } from '../../src/core/mask/areaOfMask.ts';
import { correctedMask } from '../../src/core/mask/correctedMask.ts';
import { encodeCorrections, encodePatch } from '../../src/core/mask/correctionBytes.ts';
import { emptyCorrections } from '../../src/core/mask/correctionLayer.ts';
import { beginEdit, finishEdit, paintRuns } from '../../src/core/mask/maskEdit.ts';
import { countedAt } from '../../src/core/point-grid/countedAt.ts';
import { pointPlaces } from '../../src/core/point-grid/pointPlaces.ts';
import { placePoints } from '../../src/core/point-grid/pointSet.ts';
import { encodeLabelRuns } from '../../src/core/raster/labelRuns.ts';
import type { RgbaRaster } from '../../src/core/raster/rgbaRaster.ts';
import { DEFAULT_CLASSES } from '../../src/core/trial/defaultClasses.ts';
import type { ProjectStore } from '../../src/storage/projectStore.ts';
import { stored } from '../storage/support.ts';
import { truePhoto } from './trueStrokes.ts';

const folder = new URL('../../sample-images/', import.meta.url);
const annotations = (() => {
  const reading = readPhotoAnnotations(readFileSync(new URL('annotations.json', folder), 'utf8'));
  if (!reading.ok) throw new Error('the sample annotations cannot be read');
  return reading.annotations;
})();

const CLASS_IDS = DEFAULT_CLASSES.map(({ id }) => id);

/** A sample photo in a store, measured as the page measures it. */
export interface MeasuredPhoto {
  readonly id: string;
  readonly sha256: string;
  readonly raster: RgbaRaster;
  readonly settings: MeasureSettings;
}

/** Adds a sample photo with its frame and measures it, by the start model or a taught one. */
export async function addSample(
  store: ProjectStore,
  name: string,
  taught: NamedModel | null = null,
): Promise<MeasuredPhoto> {
  const file = readFileSync(new URL(`photos/${name}`, folder));
  const bytes = new Uint8Array(file);
  const decoded = await decodePhoto(bytes);
  if (!decoded.ok) throw new Error(`${name}: ${decoded.problem.code}`);
  const { raster } = decoded;
  const sha256 = await sha256Of(bytes);
  const { frame, neutral, ignored } = annotations.photos.get(name)!;
  const [ratingDate, plot] = name.replace(/\.jpg$/, '').split('_') as [string, string];
  const { widthPx, heightPx } = raster;
  const facts = { name, sha256, plot, ratingDate, namedBy: 'file-name' as const, widthPx, heightPx };
  const { photo } = await stored(
    store.photos.add({ ...facts, bytes: bytes.buffer, frame, neutral, ignored }),
  );
  const { id } = photo;
  if (taught) {
    await stored(store.teaching.adoptModel({ taught, ratingDate, trialId: null, photoIds: [id] }));
  }
  const claimed = (await stored(store.jobs.claim(id, 'run')))!;
  const { settings } = claimed;
  const result = await measurePhoto(raster, settings, { taught, photoSha256: sha256 });
  if (!result.ok) throw new Error(`${name}: ${result.problem.code}`);
  const { mask, ...measured } = result.measurement;
  const figureId = await stored(
    store.jobs.finish(
      id,
      'run',
      { widthPx, heightPx, takenAt: null },
      {
        ...measured,
        method: 'automatic',
        softwareVersion: '0.1.0',
        decoder: 'node same',
      },
    ),
  );
  const runs = deflateRawSync(encodeLabelRuns(mask.labels, widthPx));
  await stored(
    store.photos.saveAutomaticMask({
      photoId: id,
      figureId: figureId!,
      widthPx,
      heightPx,
      encoding: 'label-runs deflate-raw',
      bytes: new Uint8Array(runs).buffer,
    }),
  );
  return { id, sha256, raster, settings };
}

/** A model taught on one sample photo, by labelled pixels drawn from its truth. */
export async function teachOnSample(name: string): Promise<NamedModel> {
  const bytes = new Uint8Array(readFileSync(new URL(`photos/${name}`, folder)));
  const decoded = await decodePhoto(bytes);
  if (!decoded.ok) throw new Error(decoded.problem.code);
  const { frame, neutral, ignored } = annotations.photos.get(name)!;
  const settings = { classes: DEFAULT_CLASSES, frame, neutral, ignored };
  const { strokes } = await truePhoto(name, 60);
  const taught = await teachOnPhoto(
    decoded.raster,
    settings,
    strokes.map(({ class: classId, radiusPx, points }) => ({ classId, radiusPx, points })) as never,
    { photoSha256: await sha256Of(bytes) },
  );
  if (!taught.ok) throw new Error('nothing was taught');
  const fit = fitCoverModel([taught.teaching as TeachingPhoto], CLASS_IDS);
  if (!fit.ok) throw new Error(fit.problem.code);
  const id = await coverModelId(fit.model, (text) => sha256Of(new TextEncoder().encode(text)));
  return { id, model: fit.model };
}

/** Corrects a square of a photo by hand, and keeps the corrected figure. */
export async function correctSample(
  store: ProjectStore,
  { id, raster, settings, sha256 }: MeasuredPhoto,
  taught: NamedModel | null = null,
): Promise<void> {
  const result = await measurePhoto(raster, settings, { taught, photoSha256: sha256 });
  if (!result.ok) throw new Error(result.problem.code);
  const { mask: automatic, cover: _cover, ...measured } = result.measurement;
  const { widthPx, heightPx } = raster;
  const mask = correctedMask(automatic, emptyCorrections(widthPx, heightPx), CLASS_IDS.length);
  const edit = beginEdit(mask);
  const rows = Array.from({ length: 80 }, (_, row) => [300 + row, 400, 480]).flat();
  paintRuns(edit, { runs: Int32Array.from(rows) } as never, { label: 2 });
  const patch = finishEdit(edit)!;
  const layer = encodeCorrections(mask.corrections);
  await stored(
    store.corrections.keep({
      photoId: id,
      revision: 0,
      layer: layer.buffer,
      classIds: CLASS_IDS,
      sequence: 1,
      gesture: 'brush',
      patch: encodePatch(patch).buffer,
      by: 'K',
      forgotten: [],
    }),
  );
  const shares = coverOfMask(mask.effective, areaOfMask(automatic, settings), CLASS_IDS.length)!;
  await stored(
    store.corrections.keepFigure({
      photoId: id,
      revision: 1,
      figure: {
        ...measured,
        cover: shares.map((share, index) => ({ classId: CLASS_IDS[index]!, ...share })),
        method: 'corrected',
        softwareVersion: '0.1.0',
        decoder: 'node same',
      },
      correctionsSha256: await sha256Of(layer),
      by: 'K',
    }),
  );
}

/** Calls 25 points on a photo, and keeps the figure by points. */
export async function countSample(
  store: ProjectStore,
  { id, raster, settings }: MeasuredPhoto,
): Promise<void> {
  const { widthPx, heightPx } = raster;
  const area = measuredArea(widthPx, heightPx, settings);
  const placing = placePoints({ kind: 'simple-random', points: 25 }, settings.frame!, area, 7);
  if (!placing.ok) throw new Error(placing.code);
  const plan = {
    id: `plan ${id}`,
    trialId: null,
    ratingDate: null,
    design: { kind: 'simple-random', points: 25 } as const,
    seed: 7,
    photosPerTreatment: null,
    drawnFrom: 1,
    leftOut: { withStrokes: 0, inReviewQueue: 0 },
    createdAt: '2027-06-01T08:00:00.000Z',
    by: 'K',
  };
  await stored(store.points.addPlan(plan, [{ id: `set ${id}`, photoId: id, set: placing.set }]));
  const places = pointPlaces(placing.set, [], settings.frame!.corners, area);
  const calls = places.map(({ id: pointId, at }, index) => ({
    pointId,
    observer: 'K',
    classId: index === 3 ? null : CLASS_IDS[index % 3]!,
    at,
    calledAt: '2027-05-01T09:00:00.000Z',
    gapRule: { kind: 'every-pixel' } as const,
  }));
  for (const call of calls) {
    const [x, y] = call.at;
    await stored(
      store.points.addCall({
        ...call,
        at: [x, y] as never,
        id: `call ${id} ${call.pointId}`,
        pointSetId: `set ${id}`,
      }),
    );
  }
  const estimate = countedAt(raster, settings, placing.set, calls, 'K')!;
  await stored(
    store.points.keepFigures(
      [
        {
          photoId: id,
          figure: {
            method: 'points',
            modelId: 'points called by K',
            flags: [],
            millimetresPerPixel: null,
            softwareVersion: '0.1.0',
            decoder: 'none',
            settings,
            measuredPixels: estimate.points,
            cover: estimate.classes.map(({ hits, coverFraction }, index) => ({
              classId: CLASS_IDS[index]!,
              pixels: hits,
              coverFraction: coverFraction!,
            })),
          },
        },
      ],
      'K',
    ),
  );
}
