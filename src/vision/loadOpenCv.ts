import type { loadOpenCV } from '@opencvjs/web';

/** The opencv.js runtime, a wasm module of 11 MB: loaded on first need and kept. */
export type OpenCv = Awaited<ReturnType<typeof loadOpenCV>>;

let pending: Promise<OpenCv> | undefined;

/** @throws Error if the runtime cannot be loaded; a later call tries again */
export function loadOpenCv(): Promise<OpenCv> {
  pending ??= import('@opencvjs/web')
    .then((module) => module.loadOpenCV())
    .catch((error: unknown) => {
      pending = undefined;
      throw error;
    });
  return pending;
}
