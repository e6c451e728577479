import { readFileSync } from 'node:fs';
import { deflateRawSync } from 'node:zlib';
import sharp from 'sharp';
import { openCorrectedFigures } from '../../src/app/session/correctedFigures.ts';
import { openPoints } from '../../src/app/session/points.ts';
import { readPhotoFile } from '../../src/app/session/readPhotoFile.ts';
import { openReviewing } from '../../src/app/session/reviewing.ts';
import { SAMPLE_PREFIX } from '../../src/app/session/sampleId.ts';
import { SOFTWARE_VERSION } from '../../src/app/session/softwareVersion.ts';
import { samplePlan } from '../../src/app/session/trialPlans.ts';
import { decodePhoto } from '../../src/cli/decodePhoto.ts';
import { fitCoverModel, type TeachingPhoto } from '../../src/core/classifier/coverModel.ts';
import { heldBackAgreement } from '../../src/core/classifier/heldBackAgreement.ts';
import { measurePhoto } from '../../src/core/cover/measurePhoto.ts';
import { teachOnPhoto } from '../../src/core/cover/teachOnPhoto.ts';
import { coverModelId } from '../../src/core/exchange/coverModel.ts';
import { storedDeclaration } from '../../src/core/exchange/declaredAnalysis.ts';
import { readPhotoAnnotations } from '../../src/core/exchange/photoAnnotations.ts';
import { photoPoint } from '../../src/core/geometry/points.ts';
import { beginStroke } from '../../src/core/mask/brushStroke.ts';
import { correctedMask } from '../../src/core/mask/correctedMask.ts';
import { encodeCorrections, encodePatch } from '../../src/core/mask/correctionBytes.ts';
import { emptyCorrections } from '../../src/core/mask/correctionLayer.ts';
import { beginEdit, finishEdit } from '../../src/core/mask/maskEdit.ts';
import { checkPhoto } from '../../src/core/quality/checkPhoto.ts';
import { encodeLabelRuns } from '../../src/core/raster/labelRuns.ts';
import type { RgbaRaster } from '../../src/core/raster/rgbaRaster.ts';
import { DEFAULT_CLASSES } from '../../src/core/trial/defaultClasses.ts';
import { randomBelow, repeatableRandom, seedFor } from '../../src/core/trial/repeatableRandom.ts';
import type { PhotoSummary } from '../../src/storage/photoSummary.ts';
import type { StrokeRecord } from '../../src/storage/records/correctionRecords.ts';
import { openSampleStore, type SampleStore, stored } from './sampleStore.ts';
import { bestPlaces, shareOf, type Truth, truthOf } from './truthOf.ts';

/*
 * The records of the sample trial, made as a person would make them in the page: by the page's own session parts and the
 * core. Where a person would look at the turf, the script looks at the truth the photos were rendered with. Nothing
 * is random, so the same program makes the same records.
 */

/** Signs everything: no person looked at these photos. */
const BY = 'sample script';
const NAME = 'Sample trial (rendered photos, invented results)';
/** Plots that are painted on: one in each block and of each treatment. */
const TAUGHT_PLOTS = ['101', '203', '302', '404'];
/** Many short strokes: leaves are a few pixels wide here, and a long stroke would leave its class. */
const STROKES_A_CLASS = 30;
const STROKE_RADIUS_PX = 0;
const MOST_STROKE_POINTS = 3;
/** A stroke begins where so much of the nine pixels round it is of its class. */
const CLEAR_SHARE = 0.6;
const BRUSH_RADIUS_PX = 9;
/** Photos of the last date that are corrected, the most doubtful first. */
const CORRECTED_PHOTOS = 4;
const GESTURES_A_PHOTO = 5;
const POINTS_A_SIDE = 10;
const PHOTOS_PER_TREATMENT = 2;

const CLASS_IDS = DEFAULT_CLASSES.map(({ id }) => id);

interface SamplePhoto {
  readonly name: string;
  readonly ratingDate: string;
  readonly plot: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly raster: RgbaRaster;
  readonly truth: Truth;
}

export interface MakingOptions {
  /** File names of the photos, in the order of their dates. */
  readonly names: readonly string[];
  readonly say?: (line: string) => void;
}

/** A store with the whole trial in it. */
export async function makeSampleTrial({ names, say = () => {} }: MakingOptions): Promise<SampleStore> {
  const sample = await openSampleStore(SAMPLE_PREFIX);
  const { clock, trial } = sample;
  await trial.create(await samplePlan(NAME, repeatableRandom(2027)), BY);
  // photos find their plots by their names; nothing more is asked of the plan while they come in
  trial.stop();
  clock.put('2027-03-08T09:00:00.000Z');
  await declare(sample);
  const dates = [...new Set(names.map((name) => name.slice(0, 10)))];
  const photoIds = new Map<string, string>();
  for (const ratingDate of dates) {
    say(`${ratingDate}: photos, strokes, figures, points, review`);
    clock.put(`${ratingDate}T15:00:00.000Z`);
    const photos: SamplePhoto[] = [];
    for (const name of names.filter((one) => one.startsWith(ratingDate))) photos.push(await read(name));
    for (const photo of photos) photoIds.set(photo.name, await add(sample, photo));
    await teach(sample, ratingDate, photos, photoIds);
    for (const photo of photos) await measure(sample, photo, photoIds.get(photo.name)!);
    clock.put(`${ratingDate}T19:00:00.000Z`);
    await count(sample, ratingDate);
    const isLast = ratingDate === dates.at(-1);
    if (isLast) await correct(sample, ratingDate);
    await review(sample, ratingDate, !isLast);
  }
  return sample;
}

const annotations = (() => {
  const reading = readPhotoAnnotations(readFileSync('sample-images/annotations.json', 'utf8'));
  if (!reading.ok) throw new Error('sample-images/annotations.json cannot be read');
  return reading.annotations;
})();

async function read(name: string): Promise<SamplePhoto> {
  const bytes = new Uint8Array(readFileSync(`sample-images/photos/${name}`));
  const decoded = await decodePhoto(bytes);
  if (!decoded.ok) throw new Error(`${name}: ${decoded.problem.code}`);
  const [ratingDate, plot] = name.replace(/\.jpg$/, '').split('_') as [string, string];
  return { name, ratingDate, plot, bytes, raster: decoded.raster, truth: await truthOf(name) };
}

async function declare({ store, trial }: SampleStore): Promise<void> {
  const plan = trial.trial.get();
  if (plan.state !== 'open') throw new Error('the sample plan was not kept');
  const { classes, gapRule } = plan.plan.trial;
  const declaration = storedDeclaration({
    variable: { kind: 'class', classId: 'weedy-grass' },
    method: 'automatic',
    when: { kind: 'date', ratingDate: '2027-07-26' },
    transform: 'none',
    alpha: 0.05,
    controlThreshold: 20,
    minimumPressure: 5,
    classes,
    gapRule,
    exclusions: [],
  });
  stored(await store.declarations.declare(plan.id, declaration, BY, null, null));
}

/** Takes a photo in with the frame and grey card that its file of annotations says. */
async function add({ store }: SampleStore, { name, bytes }: SamplePhoto): Promise<string> {
  const { frame, neutral, ignored } = annotations.photos.get(name)!;
  const reading = await readPhotoFile(new File([bytes], name), { frame, neutral, ignored });
  if (!reading.ok) throw new Error(`${name}: ${reading.problem.code}`);
  return stored(await store.photos.add(reading.photo)).photo.id;
}

/** Paints strokes where the truth is one class all round, and has the date measured by what they teach. */
async function teach(
  { store, context: { parts } }: SampleStore,
  ratingDate: string,
  photos: readonly SamplePhoto[],
  photoIds: ReadonlyMap<string, string>,
): Promise<void> {
  const lessons: TeachingPhoto[] = [];
  for (const photo of photos.filter(({ plot }) => TAUGHT_PLOTS.includes(plot))) {
    const photoId = photoIds.get(photo.name)!;
    const strokes = strokesOn(photo).map(
      (stroke): StrokeRecord => ({
        ...stroke,
        id: parts.newId(),
        photoId,
        by: BY,
        at: parts.now().toISOString(),
      }),
    );
    stored(await store.teaching.replaceStrokes([], strokes));
    const { photoSha256, settings } = (await store.teaching.photo(photoId))!;
    const taught = await teachOnPhoto(photo.raster, settings, strokes, { photoSha256 });
    if (!taught.ok) throw new Error(`${photo.name}: ${taught.problem.code}`);
    lessons.push(taught.teaching);
  }
  if (lessons.length === 0) return;
  const fit = fitCoverModel(lessons, CLASS_IDS);
  if (!fit.ok) throw new Error(`${ratingDate}: ${fit.problem.code}`);
  const id = await coverModelId(fit.model, (text) => sha256Of(new TextEncoder().encode(text)));
  stored(
    await store.teaching.adoptModel({
      taught: { id, model: fit.model },
      agreement: heldBackAgreement(lessons, CLASS_IDS.length),
      ratingDate,
      trialId: null,
      photoIds: photos.map(({ name }) => photoIds.get(name)!),
    }),
  );
}

const sha256Of = async (bytes: Uint8Array<ArrayBuffer>): Promise<string> =>
  Buffer.from(await crypto.subtle.digest('SHA-256', bytes)).toString('hex');

/** Short strokes along pixels of one class, begun anywhere on it: painting only the clearest places would teach half the class. */
function strokesOn({ name, truth }: SamplePhoto): Pick<StrokeRecord, 'classId' | 'radiusPx' | 'points'>[] {
  const { widthPx, heightPx, labels } = truth;
  const random = repeatableRandom(seedFor(2027, 'strokes', name));
  return CLASS_IDS.flatMap((classId, index) => {
    const isOwn = (pixel: number) => labels[pixel] === index + 1;
    const strokes: Pick<StrokeRecord, 'classId' | 'radiusPx' | 'points'>[] = [];
    while (strokes.length < STROKES_A_CLASS) {
      const x = 4 + randomBelow(widthPx - 8, random);
      const y = 4 + randomBelow(heightPx - 8, random);
      if (shareOf(widthPx, 1, x, y, isOwn) < CLEAR_SHARE) continue;
      const points = wayThrough(truth, x, y, isOwn).map(([px, py]) => photoPoint(px + 0.5, py + 0.5));
      strokes.push({ classId, radiusPx: STROKE_RADIUS_PX, points });
    }
    return strokes;
  });
}

/** From a pixel on through neighbours that fulfil something, never back: the way a careful hand follows a leaf. */
function wayThrough(
  { widthPx }: Truth,
  x: number,
  y: number,
  isOwn: (pixel: number) => boolean,
): [number, number][] {
  const way: [number, number][] = [[x, y]];
  const steps = [
    [2, 0],
    [2, 2],
    [0, 2],
    [-2, 2],
    [2, -2],
  ] as const;
  while (way.length < MOST_STROKE_POINTS) {
    const [atX, atY] = way.at(-1)!;
    const next = steps
      .map(([dx, dy]) => [atX + dx, atY + dy] as [number, number])
      .find(
        ([px, py]) => shareOf(widthPx, 1, px, py, isOwn) === 1 && !way.some(([a, b]) => a === px && b === py),
      );
    if (!next) break;
    way.push(next);
  }
  return way;
}

/** Measures a photo as the page does: looked over, measured, mask and thumbnail kept. */
async function measure({ store }: SampleStore, photo: SamplePhoto, id: string): Promise<void> {
  const { name, raster, bytes } = photo;
  const claimed = stored(await store.jobs.claim(id, 'script'));
  if (!claimed) throw new Error(`${name} does not wait to be measured`);
  const { photo: record, settings: settled, find, taught } = claimed;
  const { check, settings } = checkPhoto(raster, bytes, settled, find);
  const { frame, ignored, neutral } = settings;
  const softwareVersion = SOFTWARE_VERSION;
  stored(
    await store.checks.keep(id, 'script', { check, area: { frame, ignored, neutral }, softwareVersion }),
  );
  const result = await measurePhoto(raster, settings, { taught, photoSha256: record.sha256 });
  if (!result.ok) throw new Error(`${name}: ${result.problem.code}`);
  const { mask, ...measured } = result.measurement;
  const { widthPx, heightPx } = raster;
  const thumbnail = await sharp(bytes)
    .resize(360)
    .jpeg({ quality: 50, mozjpeg: true })
    .toBuffer({ resolveWithObject: true });
  stored(
    await store.photos.saveThumbnail({
      photoId: id,
      widthPx: thumbnail.info.width,
      heightPx: thumbnail.info.height,
      jpeg: new Uint8Array(thumbnail.data).buffer,
    }),
  );
  const figureId = stored(
    await store.jobs.finish(
      id,
      'script',
      { widthPx, heightPx, takenAt: record.takenAt },
      { ...measured, method: 'automatic', softwareVersion, decoder: 'node same' },
    ),
  );
  const runs = deflateRawSync(encodeLabelRuns(mask.labels, widthPx), { level: 9 });
  stored(
    await store.photos.saveAutomaticMask({
      photoId: id,
      figureId: figureId!,
      widthPx,
      heightPx,
      encoding: 'label-runs deflate-raw',
      bytes: new Uint8Array(runs).buffer,
    }),
  );
}

/** Draws photos and points and calls each point by the truth, then keeps the figures that follow. */
async function count({ context, settled }: SampleStore, ratingDate: string): Promise<void> {
  await settled();
  const points = await openPoints()(context);
  const design = { kind: 'jittered-grid', columns: POINTS_A_SIDE, rows: POINTS_A_SIDE } as const;
  await points.plan(
    { ratingDates: [ratingDate], design, seed: 2027, photosPerTreatment: PHOTOS_PER_TREATMENT },
    BY,
  );
  const names = new Map(context.photos.get().map(({ id, name }) => [id, name]));
  await points.hold(true);
  for (const { photo } of points.toCall(await points.counted(ratingDate), BY)) {
    const { labels, widthPx } = await truthOf(names.get(photo.photoId)!);
    const calling = points.call(photo, BY);
    for (;;) {
      const { order, position, places } = calling.session.get();
      const at = places.get(order[position] ?? -1);
      if (!at) break;
      const label = labels[Math.floor(at[1]) * widthPx + Math.floor(at[0])]!;
      // what is neither turf nor ground, as the rim of the grey card, cannot be told
      calling.act({ type: 'call', classId: CLASS_IDS[label - 1] ?? null });
      await calling.store();
    }
  }
  await points.hold(false);
  await points.keepFigures(ratingDate, BY, BY);
  await settled();
  points.stop();
}

/** Brushes over places where the mask is wrong and the truth is one class all round. */
async function correct({ store, context, settled }: SampleStore, ratingDate: string): Promise<void> {
  await settled();
  const worst = context.photos
    .get()
    .filter((photo) => photo.ratingDate === ratingDate)
    .sort((a, b) => doubtOf(b) - doubtOf(a) || (a.name < b.name ? -1 : 1))
    .slice(0, CORRECTED_PHOTOS);
  for (const { id, name } of worst) {
    const automatic = (await context.mask(id))!;
    const truth = await truthOf(name);
    const { widthPx, heightPx } = truth;
    const mask = correctedMask(automatic, emptyCorrections(widthPx, heightPx), CLASS_IDS.length);
    const places = bestPlaces(truth, GESTURES_A_PHOTO, BRUSH_RADIUS_PX, (x, y) => {
      const label = truth.labels[y * widthPx + x]!;
      const isOwn = shareOf(widthPx, BRUSH_RADIUS_PX, x, y, (pixel) => truth.labels[pixel] === label);
      const isWrong = shareOf(widthPx, BRUSH_RADIUS_PX, x, y, (pixel) => automatic.labels[pixel] !== label);
      return label === 0 || isOwn < 0.8 || isWrong < 0.3 ? 0 : isWrong;
    });
    for (const [index, { x, y }] of places.entries()) {
      const edit = beginEdit(mask);
      const stroke = beginStroke(edit, { label: truth.labels[y * widthPx + x]! });
      for (const dx of [-3, 0, 3]) {
        stroke.moveTo({ at: photoPoint(x + dx + 0.5, y + 0.5), radiusPx: BRUSH_RADIUS_PX - 3 });
      }
      const patch = finishEdit(edit)!;
      stored(
        await store.corrections.keep({
          photoId: id,
          revision: index,
          layer: encodeCorrections(mask.corrections).buffer,
          classIds: CLASS_IDS,
          sequence: index + 1,
          gesture: 'brush',
          patch: encodePatch(patch).buffer,
          by: BY,
          forgotten: [],
        }),
      );
    }
  }
  await settled();
  const figures = await openCorrectedFigures(context);
  await figures.settled();
  figures.stop();
  await settled();
}

const doubtOf = ({ figure }: PhotoSummary) =>
  10 * (figure?.flags.length ?? 0) + (figure?.reasons?.length ?? 0);

/** Accepts what the truth bears out; the date is signed off where it is done with. */
async function review({ context, settled }: SampleStore, ratingDate: string, isDone: boolean): Promise<void> {
  await settled();
  const reviewing = await openReviewing(ratingDate)(context);
  reviewing.by = BY;
  await reviewing.load();
  const { queue } = reviewing.state.get();
  // the last date is left half way, so that there is something to look at
  for (const photo of isDone ? queue : queue.slice(0, queue.length / 2)) {
    await reviewing.judge(photo, 'accepted');
  }
  if (isDone) await reviewing.signOff(null);
  reviewing.stop();
}
