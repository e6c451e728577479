import { expose, transfer } from 'comlink';
import { type Measurement, measuredBox, measurePhoto } from '../src/core/cover/measurePhoto.ts';
import { decoderSelfTest } from '../src/core/photo-file/decoderSelfTest.ts';
import { readPhotoFacts } from '../src/core/photo-file/readPhotoFacts.ts';
import { checkPhoto } from '../src/core/quality/checkPhoto.ts';
import type { LabelMask } from '../src/core/raster/labelMask.ts';
import { encodeLabelRuns } from '../src/core/raster/labelRuns.ts';
import { decodePhoto, decodePicture } from './decodePhoto.ts';
import { makeThumbnail } from './makeThumbnail.ts';
import type { CheckedPhoto, DecodedFacts, MeasureApi, MeasureJob, MeasureOutcome } from './measureApi.ts';
import { nextTask } from './nextTask.ts';

class JobCancelled extends Error {
  override readonly name = 'JobCancelled';
}

let runningJob: { readonly jobId: string; cancelled: boolean } | null = null;
let lastMask: { readonly jobId: string; readonly mask: LabelMask } | null = null;

async function measure(
  job: MeasureJob,
  onProgress: (doneFraction: number) => void,
  onChecked: (checked: CheckedPhoto) => void,
): Promise<MeasureOutcome> {
  const running = { jobId: job.jobId, cancelled: false };
  const betweenStrips = async (doneFraction: number) => {
    onProgress(doneFraction);
    await nextTask();
    if (running.cancelled) throw new JobCancelled();
  };
  runningJob = running;
  lastMask = null;
  try {
    return await measured(job, betweenStrips, onChecked);
  } catch (error) {
    if (error instanceof JobCancelled) return { state: 'cancelled' };
    throw error;
  } finally {
    runningJob = null;
  }
}

async function measured(
  { jobId, bytes, settings: settled, find, photoSha256, taught, thumbnailPx, wantMask }: MeasureJob,
  betweenStrips: (doneFraction: number) => Promise<void>,
  onChecked: (checked: CheckedPhoto) => void,
): Promise<MeasureOutcome> {
  await betweenStrips(0);
  const file = new Uint8Array(bytes);
  // a thumbnail shows the whole photo, a frame is looked for in all of it; else only what is measured is read back
  const decoded = await decodePhoto(file, thumbnailPx > 0 || find.frame ? null : measuredBox(settled));
  if (!decoded.ok) {
    return { state: 'failed', problem: decoded.problem, facts: null, checked: null, thumbnail: null };
  }
  const { raster } = decoded;
  const { check, settings } = checkPhoto(raster, file, settled, find);
  const { frame, ignored, neutral } = settings;
  const checked: CheckedPhoto = { check, area: { frame, ignored, neutral } };
  onChecked(checked);
  await betweenStrips(0);
  const { captureDay, captureTime } = readPhotoFacts(file);
  const facts: DecodedFacts = {
    widthPx: raster.widthPx,
    heightPx: raster.heightPx,
    takenAt: captureDay && `${captureDay}T${captureTime}`,
  };
  const thumbnail = thumbnailPx > 0 ? await makeThumbnail(raster, thumbnailPx) : null;
  const started = performance.now();
  const result = await measurePhoto(raster, settings, { taught, photoSha256, betweenStrips });
  const measureMs = performance.now() - started;
  const files = thumbnail ? [thumbnail.jpeg] : [];
  if (!result.ok) {
    const { problem } = result;
    return transfer<MeasureOutcome>({ state: 'failed', problem, facts, checked, thumbnail }, files);
  }
  const { mask, ...measurement }: Measurement = result.measurement;
  lastMask = { jobId, mask };
  const copy = wantMask ? { ...mask, labels: mask.labels.slice() } : null;
  return transfer<MeasureOutcome>(
    {
      state: 'done',
      facts,
      checked,
      measurement,
      mask: copy,
      thumbnail,
      timings: { ...decoded.timings, measureMs },
    },
    copy ? [...files, copy.labels.buffer] : files,
  );
}

const measureApi: MeasureApi = {
  measure,
  cancel(jobId) {
    if (runningJob?.jobId === jobId) runningJob.cancelled = true;
  },
  async takeMask(jobId) {
    if (lastMask?.jobId !== jobId) return null;
    const { widthPx, heightPx, labels } = lastMask.mask;
    lastMask = null;
    const deflated = new Blob([encodeLabelRuns(labels, widthPx)])
      .stream()
      .pipeThrough(new CompressionStream('deflate-raw'));
    const bytes = await new Response(deflated).arrayBuffer();
    return transfer({ widthPx, heightPx, bytes }, [bytes]);
  },
  selfTest: () => decoderSelfTest(decodePicture),
};
expose(measureApi);
