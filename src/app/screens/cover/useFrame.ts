import { useState } from 'react';
import { frameOf } from '../../../core/geometry/frameOf.ts';
import {
  type FrameProblem,
  frameProblem,
  type PlotFrame,
  wholePhoto,
} from '../../../core/geometry/plotFrame.ts';
import type { Quadrilateral } from '../../../core/geometry/points.ts';
import type { Size } from '../../canvas/view.ts';
import type { PhotoSummary } from '../../session/session.ts';
import type { AreaControl } from './useArea.ts';

export interface FrameControl {
  /** Corners as they are shown: those being moved, else the stored ones, those on offer, or the whole photo. */
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
  /** Measures the whole photo. */
  clear(): void;
  readonly canUndo: boolean;
  undo(): void;
}

const same = (a: Quadrilateral<'photo'>, b: Quadrilateral<'photo'>) =>
  a.every(([x, y], corner) => x === b[corner]![0] && y === b[corner]![1]);

/** The frame of one photo while a person marks it. */
export function useFrame(photo: PhotoSummary, size: Size, control: AreaControl): FrameControl {
  const { area, frameSizeMm, change, canUndo, undo } = control;
  const stored = area ? area.frame : photo.frame;
  const [draft, setDraft] = useState<Quadrilateral<'photo'> | null>(null);
  const problem = draft && frameProblem(draft, size.width, size.height);
  const settle = (frame: PlotFrame | null) => change((before) => ({ ...before, frame, frameBy: 'person' }));
  return {
    corners: draft ?? stored?.corners ?? photo.offeredFrame ?? wholePhoto(size.width, size.height),
    stored,
    moved: draft !== null,
    problem,
    move: setDraft,
    place(next) {
      if (frameProblem(next, size.width, size.height)) return setDraft(next);
      setDraft(null);
      if (stored && same(stored.corners, next)) return;
      settle(stored ? { corners: next, sizeMm: stored.sizeMm } : frameOf(next, frameSizeMm));
    },
    resize(sizeMm) {
      if (stored) change((before) => ({ ...before, frame: { ...stored, sizeMm } }));
    },
    clear() {
      setDraft(null);
      settle(null);
    },
    canUndo: canUndo || draft !== null,
    undo() {
      setDraft(null);
      // corners that were never stored are simply given up
      if (!problem) undo();
    },
  };
}
