import { useCallback, useEffect, useRef, useState } from 'react';
import {
  type FrameProblem,
  frameProblem,
  type PlotFrame,
  wholePhoto,
} from '../../../core/geometry/plotFrame.ts';
import type { Quadrilateral } from '../../../core/geometry/points.ts';
import type { Size } from '../../canvas/view.ts';
import type { PhotoSummary } from '../../session/session.ts';
import { useSession } from '../../session/useSession.tsx';

export interface FrameControl {
  /** Corners as they are shown: those being moved, else the stored ones, else the whole photo. */
  readonly corners: Quadrilateral<'photo'>;
  readonly stored: PlotFrame | null;
  /** Why the corners shown cannot be measured; nothing is stored until this is null. */
  readonly problem: FrameProblem | null;
  /** Whether other corners are shown than those the figure was made with. */
  readonly moved: boolean;
  /** Shows corners without storing them, while they move. */
  move(corners: Quadrilateral<'photo'>): void;
  /** Stores corners when they can be measured; the photo is then measured again. */
  place(corners: Quadrilateral<'photo'>): void;
  resize(sizeMm: PlotFrame['sizeMm']): void;
  clear(): void;
  readonly canUndo: boolean;
  undo(): void;
  /** What went wrong when storing. */
  readonly failure: string | null;
}

const same = (a: Quadrilateral<'photo'>, b: Quadrilateral<'photo'>) =>
  a.every(([x, y], corner) => x === b[corner]![0] && y === b[corner]![1]);

/** The measured area of one photo while a person marks it. */
export function useFrame(photo: PhotoSummary, size: Size): FrameControl {
  const session = useSession();
  const stored = photo.frame;
  const [draft, setDraft] = useState<Quadrilateral<'photo'> | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const [past, setPast] = useState<readonly (PlotFrame | null)[]>([]);
  // the frame last asked for: what quick steps build on before the store has answered
  const asked = useRef(stored);

  useEffect(() => {
    asked.current = stored;
    setDraft((last) => (last && stored && same(last, stored.corners) ? null : last));
  }, [stored]);

  const ask = useCallback(
    async (frame: PlotFrame | null) => {
      asked.current = frame;
      setFailure(null);
      try {
        await session.changeFrame(photo.id, frame);
      } catch (error) {
        console.error(error);
        setDraft(null);
        setFailure(error instanceof Error ? error.message : String(error));
      }
    },
    [session, photo.id],
  );
  const store = (frame: PlotFrame | null) => {
    setPast([...past, asked.current]);
    void ask(frame);
  };

  const corners = draft ?? stored?.corners ?? wholePhoto(size.width, size.height);
  return {
    corners,
    stored,
    moved: draft !== null,
    problem: draft && frameProblem(draft, size.width, size.height),
    move: setDraft,
    place(next) {
      setDraft(next);
      if (frameProblem(next, size.width, size.height)) return;
      if (asked.current && same(asked.current.corners, next)) return;
      store({ corners: next, sizeMm: asked.current?.sizeMm ?? null });
    },
    resize(sizeMm) {
      if (asked.current) store({ ...asked.current, sizeMm });
    },
    clear() {
      setDraft(null);
      if (asked.current) store(null);
    },
    canUndo: past.length > 0 || draft !== null,
    undo() {
      const wrong = draft !== null && frameProblem(draft, size.width, size.height) !== null;
      setDraft(null);
      // corners that were never stored are simply given up
      if (wrong || past.length === 0) return;
      void ask(past.at(-1)!);
      setPast(past.slice(0, -1));
    },
    failure,
  };
}
