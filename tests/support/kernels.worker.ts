import { decodePhoto } from '../../workers/decodePhoto.ts';
import { kernelDifferences, randomPicture } from './kernelDifferences.ts';

export type KernelQuestion =
  | { readonly widthPx: number; readonly heightPx: number; readonly seed: number }
  | { readonly photo: string; readonly seed: number };

self.onmessage = async ({ data: question }: MessageEvent<KernelQuestion>) => {
  if (!('photo' in question)) {
    const { widthPx, heightPx, seed } = question;
    return self.postMessage(kernelDifferences(randomPicture(widthPx, heightPx, seed), seed));
  }
  const bytes = new Uint8Array(await (await fetch(`/files/${question.photo}`)).arrayBuffer());
  const decoded = await decodePhoto(bytes);
  if (!decoded.ok) throw new Error(decoded.problem.code);
  self.postMessage(kernelDifferences(decoded.raster, question.seed));
};
