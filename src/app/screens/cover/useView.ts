import { useCallback, useState } from 'react';
import type { Surface } from '../../canvas/useSurface.ts';
import { fitView, isFitted, type Size, settleView, type View } from '../../canvas/view.ts';

export interface ViewControl {
  /** null before the photo and the surface have a size. */
  readonly view: View | null;
  readonly fitted: boolean;
  /** Changes the view by a function of the last one. */
  readonly change: (step: (view: View) => View) => void;
  /** Shows the whole photo again. */
  readonly fit: () => void;
}

/** The view of one photo: the whole of it until a person moves or zooms, also when the window changes. */
export function useView(photo: Size | null, surface: Surface | null, margin: number): ViewControl {
  const [chosen, setChosen] = useState<View | null>(null);
  const view =
    photo && surface
      ? chosen
        ? settleView(chosen, photo, surface, margin)
        : fitView(photo, surface, margin)
      : null;
  const change = useCallback(
    (step: (view: View) => View) => {
      if (!photo || !surface) return;
      setChosen((last) => {
        const next = settleView(step(last ?? fitView(photo, surface, margin)), photo, surface, margin);
        return isFitted(next, photo, surface, margin) ? null : next;
      });
    },
    [photo, surface, margin],
  );
  const fit = useCallback(() => setChosen(null), []);
  return { view, fitted: chosen === null, change, fit };
}
