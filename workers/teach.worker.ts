import { expose, transfer } from 'comlink';
import { measuredBox } from '../src/core/cover/measurePhoto.ts';
import { type AppliedLesson, TeachingDesk } from '../src/core/cover/teachingDesk.ts';
import { coverModelId } from '../src/core/exchange/coverModel.ts';
import { decodePhoto } from './decodePhoto.ts';
import { nextTask } from './nextTask.ts';
import type { TeachApi } from './teachApi.ts';

const desk = new TeachingDesk();

/** Hands the labels over instead of copying them. */
const handOver = <T>(answer: T, ...applied: readonly (AppliedLesson | null)[]): T =>
  transfer(
    answer,
    applied.flatMap((one) => (one ? [one.placed.mask.labels.buffer as ArrayBuffer] : [])),
  );

async function sha256(text: string): Promise<string> {
  const hash = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return Array.from(new Uint8Array(hash), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

const teachApi = {
  async read({ bytes, ...photo }) {
    const decoded = await decodePhoto(new Uint8Array(bytes), measuredBox(photo.settings));
    if (!decoded.ok) return decoded;
    // between strips a stroke on the open photo is heard
    return desk.put(decoded.raster, photo, () => nextTask());
  },
  teach({ photoId, strokes, photoIds, classIds }) {
    const problems = desk.repaint(photoId, strokes) ?? [];
    const lesson = desk.teach(photoIds, classIds);
    const preview = desk.apply(photoId, 'preview');
    return handOver({ lesson, problems, preview }, preview);
  },
  apply(photoId, detail) {
    const applied = desk.apply(photoId, detail);
    return handOver(applied, applied);
  },
  agreement: () => desk.agreement(),
  async model() {
    const { model } = desk;
    return model && { id: await coverModelId(model, sha256), model };
  },
} satisfies TeachApi;
expose(teachApi);
