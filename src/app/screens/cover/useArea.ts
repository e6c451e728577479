import { useMemo } from 'react';
import { ObservableValue } from '../../session/observable.ts';
import { openPhotoArea, type PhotoArea, type PhotoAreaState } from '../../session/photoArea.ts';
import { useObservable, usePart } from '../../session/useSession.tsx';

/** What can be done with the measured area of a photo; nothing happens before it was read. */
export interface AreaControl {
  /** Null until it was read. */
  readonly area: PhotoArea | null;
  readonly check: PhotoAreaState['check'];
  readonly frameSizeMm: PhotoAreaState['frameSizeMm'];
  readonly failure: string | null;
  change(step: (area: PhotoArea) => PhotoArea): void;
  sizeForDate(sizeMm: readonly [number, number]): void;
  readonly canUndo: boolean;
  undo(): void;
}

const NOT_YET = new ObservableValue<PhotoAreaState | null>(null);

/** The measured area of a photo, for as long as it is on screen. */
export function useArea(photoId: string): AreaControl {
  const part = usePart(useMemo(() => openPhotoArea(photoId), [photoId]));
  const state = useObservable<PhotoAreaState | null>(part?.state ?? NOT_YET);
  return useMemo(
    () => ({
      area: state?.area ?? null,
      check: state?.check ?? null,
      frameSizeMm: state?.frameSizeMm ?? null,
      failure: state?.failure ?? null,
      change: (step) => part?.change(step),
      sizeForDate: (sizeMm) => void part?.sizeForDate(sizeMm),
      canUndo: state?.canUndo ?? false,
      undo: () => part?.undo(),
    }),
    [part, state],
  );
}
