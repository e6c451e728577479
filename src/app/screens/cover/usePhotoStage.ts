import { useMemo, useRef } from 'react';
import { useSurface } from '../../canvas/useSurface.ts';
import type { PhotoSummary } from '../../session/session.ts';
import { usePhotoPicture } from './usePhotoPicture.ts';
import { useView } from './useView.ts';

/** What a stage with one photo needs: its place on the page, the photo's pictures, and the view that the person moves. */
export function usePhotoStage({ id, widthPx, heightPx }: PhotoSummary) {
  const stage = useRef<HTMLDivElement>(null);
  const surface = useSurface(stage);
  const picture = usePhotoPicture(id);
  const levels = picture.state === 'ready' ? picture.levels : null;
  const size = useMemo(
    () => levels ?? { width: widthPx ?? 1, height: heightPx ?? 1 },
    [levels, widthPx, heightPx],
  );
  const viewing = useView(levels, surface, 0);
  return { stage, surface, picture, levels, size, viewing };
}
