import { measurePhoto } from '../../core/cover/measurePhoto.ts';
import type { LabelMask } from '../../core/raster/labelMask.ts';
import { DEFAULT_CLASSES } from '../../core/trial/defaultClasses.ts';
import type { PhotoSummary } from '../../storage/photoSummary.ts';
import { ObservableValue } from './observable.ts';
import type { AddedFile, Progress, Session, StorageState } from './session.ts';

/** In memory and in the page's own thread. */
export async function createSession(): Promise<Session> {
  const photos = new ObservableValue<readonly PhotoSummary[]>([]);
  const progress = new ObservableValue<Progress>({ total: 0, done: 0, failed: 0, running: 0, paused: false });
  const storageState = new ObservableValue<StorageState>({
    state: 'ready',
    persisted: false,
    otherTabs: 0,
    savedAt: null,
    decoder: 'unknown',
    unreadableRecords: 0,
  });
  const bytesOf = new Map<string, File>();
  const masks = new Map<string, LabelMask>();
  const thumbnails = new Map<string, Blob>();
  const patch = (id: string, change: Partial<PhotoSummary>) =>
    photos.set(photos.get().map((photo) => (photo.id === id ? { ...photo, ...change } : photo)));
  let queue = Promise.resolve();

  const measure = async (id: string) => {
    const photo = photos.get().find((one) => one.id === id);
    const file = bytesOf.get(id);
    if (!photo || !file || photo.work !== 'waiting') return;
    patch(id, { work: 'running' });
    try {
      const bitmap = await createImageBitmap(file);
      const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
      const context = canvas.getContext('2d', { willReadFrequently: true })!;
      context.drawImage(bitmap, 0, 0);
      const { data, width, height } = context.getImageData(0, 0, bitmap.width, bitmap.height);
      const small = new OffscreenCanvas(320, Math.round((320 * height) / width));
      small.getContext('2d')!.drawImage(bitmap, 0, 0, small.width, small.height);
      thumbnails.set(id, await small.convertToBlob({ type: 'image/jpeg' }));
      const settings = { classes: DEFAULT_CLASSES, frame: photo.frame, ignored: [], neutral: null };
      const result = await measurePhoto(
        { widthPx: width, heightPx: height, data: new Uint8ClampedArray(data) },
        settings,
      );
      if (!result.ok) {
        patch(id, { work: 'failed', problem: result.problem, widthPx: width, heightPx: height });
        progress.set({ ...progress.get(), failed: progress.get().failed + 1 });
        return;
      }
      const { mask, ...measurement } = result.measurement;
      masks.set(id, mask);
      patch(id, {
        widthPx: width,
        heightPx: height,
        work: null,
        problem: null,
        stale: false,
        figure: {
          ...measurement,
          method: 'automatic',
          measuredAt: new Date().toISOString(),
          softwareVersion: '0.1.0',
          decoder: 'unknown',
          photoSha256: '',
        },
      });
      progress.set({ ...progress.get(), done: progress.get().done + 1 });
    } catch {
      patch(id, { work: 'failed', problem: { code: 'not-a-picture' } });
      progress.set({ ...progress.get(), failed: progress.get().failed + 1 });
    }
  };
  const enqueue = (id: string) => {
    patch(id, { work: 'waiting' });
    progress.set({ ...progress.get(), total: progress.get().total + 1 });
    queue = queue.then(() => measure(id));
  };
  const addFiles = async (files: readonly File[]): Promise<AddedFile[]> =>
    files.map((file) => {
      if (file.size === 0) return { name: file.name, state: 'refused', problem: { code: 'empty-file' } };
      const id = crypto.randomUUID();
      const named = /^(\d{4}-\d\d-\d\d)_(.+)\.\w+$/.exec(file.name);
      bytesOf.set(id, file);
      photos.set([
        ...photos.get(),
        {
          id,
          name: file.name,
          plot: named?.[2] ?? null,
          ratingDate: named?.[1] ?? null,
          namedBy: named ? 'file-name' : null,
          takenAt: null,
          widthPx: null,
          heightPx: null,
          frame: null,
          figure: null,
          work: null,
          problem: null,
          stale: false,
        },
      ]);
      enqueue(id);
      return { name: file.name, state: 'added', photoId: id };
    });
  return {
    photos,
    progress,
    storageState,
    addFiles,
    async addSamplePhotos() {
      const urls = import.meta.glob<string>('../../../sample-images/photos/*.jpg', {
        query: '?url&no-inline',
        import: 'default',
        eager: true,
      });
      return addFiles(
        await Promise.all(
          Object.entries(urls).map(
            async ([path, url]) => new File([await (await fetch(url)).blob()], path.split('/').at(-1)!),
          ),
        ),
      );
    },
    changePhoto: async (id, change) => patch(id, { ...change, namedBy: 'person' }),
    async changeFrame(id, frame) {
      patch(id, { frame, stale: true });
      enqueue(id);
    },
    removePhotos: async (ids) => photos.set(photos.get().filter(({ id }) => !ids.includes(id))),
    openPhoto: async (id) => ({ bytes: await bytesOf.get(id)!.arrayBuffer(), mask: masks.get(id) ?? null }),
    mask: async (id) => masks.get(id) ?? null,
    thumbnail: async (id) => thumbnails.get(id) ?? null,
    async cancelAll() {
      for (const { id, work } of photos.get()) if (work === 'waiting') patch(id, { work: null });
    },
    pause: async () => progress.set({ ...progress.get(), paused: true }),
    resume: async () => progress.set({ ...progress.get(), paused: false }),
    retry: async (ids) => ids.forEach(enqueue),
    exportRaw: async () => new Blob(['{}'], { type: 'application/json' }),
    close: async () => {},
  };
}
