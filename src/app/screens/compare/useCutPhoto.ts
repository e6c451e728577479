import { useEffect, useState } from 'react';
import type { PhotoSummary } from '../../session/session.ts';
import { useSession } from '../../session/useSession.tsx';

/** A photo cut to its frame. */
export interface CutPhoto {
  readonly url: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly millimetresPerPixel: number | null;
}

const LARGEST_PX = 1200;

/** The ground inside a photo's frame (all of it where there is none) as a picture of its own; null until it is there. */
export function useCutPhoto(photo: PhotoSummary | null): CutPhoto | 'not-there' | null {
  const session = useSession();
  const [cut, setCut] = useState<CutPhoto | 'not-there' | null>(null);
  const id = photo?.id ?? null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the photo of an id changes with every figure, its picture does not
  useEffect(() => {
    setCut(null);
    if (!photo) return;
    let left = false;
    let url: string | null = null;
    session
      .openPhoto(photo.id)
      .then(({ bytes }) => cutToFrame(bytes, photo))
      .then(
        (made) => {
          if (left) return URL.revokeObjectURL(made.url);
          url = made.url;
          setCut(made);
        },
        // its bytes are lost, or the browser cannot draw them: said in the picture's place
        () => {
          if (!left) setCut('not-there');
        },
      );
    return () => {
      left = true;
      if (url) URL.revokeObjectURL(url);
    };
  }, [session, id]);
  return cut;
}

async function cutToFrame(bytes: ArrayBuffer, { frame, figure }: PhotoSummary): Promise<CutPhoto> {
  const bitmap = await createImageBitmap(new Blob([bytes]), { imageOrientation: 'from-image' });
  const xs = frame?.corners.map(([x]) => x) ?? [0, bitmap.width];
  const ys = frame?.corners.map(([, y]) => y) ?? [0, bitmap.height];
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  const [width, height] = [Math.max(...xs) - left, Math.max(...ys) - top];
  const scale = Math.min(1, LARGEST_PX / Math.max(width, height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(width * scale));
  canvas.height = Math.max(1, Math.round(height * scale));
  canvas.getContext('2d')!.drawImage(bitmap, left, top, width, height, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  const blob = await new Promise<Blob>((done, fail) =>
    canvas.toBlob((made) => (made ? done(made) : fail(new Error('no picture'))), 'image/jpeg', 0.9),
  );
  const millimetres = figure?.millimetresPerPixel ?? null;
  return {
    url: URL.createObjectURL(blob),
    widthPx: canvas.width,
    heightPx: canvas.height,
    millimetresPerPixel: millimetres === null ? null : millimetres / scale,
  };
}
