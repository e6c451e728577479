import { useMemo, useRef, useState } from 'react';
import { type PhotoPoint, photoPoint } from '../../../../core/geometry/points.ts';
import { type StrokeShape, touches, withPoints } from '../../../canvas/strokeShapes.ts';
import type { PaintGestures } from '../../../canvas/useViewGestures.ts';
import { type Size, screenToPhoto, type View } from '../../../canvas/view.ts';
import { usePreference } from '../../../components/usePreference.ts';
import type { Teaching, TeachingState } from '../../../session/teaching.ts';

export type Tool = 'brush' | 'eraser' | 'move';
type OwnStroke = TeachingState['strokes'] extends ReadonlyMap<string, readonly (infer S)[]> ? S : never;

/** Radius of the brush to begin with, in thousandths of the photo's width: about a tuft of grass. */
const FIRST_RADIUS = 6;
const LARGEST_RADIUS = 40;

const isRadius = (value: unknown): value is number =>
  typeof value === 'number' && value > 0 && value <= LARGEST_RADIUS;

interface BrushOptions {
  readonly teaching: Teaching | null;
  /** Strokes on the photo. */
  readonly own: readonly OwnStroke[];
  readonly classId: string;
  readonly photo: Size;
  readonly view: View | null;
}

/** The brush with what it is painting: by pointer, or by a cursor that keys move. */
export function useBrush({ teaching, own, classId, photo, view }: BrushOptions) {
  const [tool, setTool] = useState<Tool>('brush');
  const [share, setShare] = usePreference('teach.radius', FIRST_RADIUS, isRadius);
  const [draft, setDraft] = useState<StrokeShape | null>(null);
  const [erased, setErased] = useState<ReadonlySet<OwnStroke>>(new Set());
  const [cursor, setCursor] = useState<PhotoPoint | null>(null);
  // pointer events come faster than renders
  const latest = useRef<{ draft: StrokeShape | null; erased: Set<OwnStroke> }>({
    draft: null,
    erased: new Set(),
  });
  const largest = Math.max(1, Math.round((LARGEST_RADIUS * photo.width) / 1000));
  const radiusPx = Math.max(1, Math.round((share * photo.width) / 1000));
  const setRadius = (px: number) => setShare((1000 * Math.min(largest, Math.max(1, px))) / photo.width);

  const gestures = useMemo<PaintGestures | null>(() => {
    if (tool === 'move' || !teaching || !view) return null;
    const clear = () => {
      latest.current = { draft: null, erased: new Set() };
      setDraft(null);
      setErased(new Set());
    };
    const paint = (points: readonly PhotoPoint[]) => {
      const before = latest.current.draft;
      const next: StrokeShape = {
        classId,
        radiusPx,
        points: withPoints(before?.points ?? [], points, radiusPx),
      };
      latest.current.draft = next;
      setDraft(next);
    };
    const wipe = (points: readonly PhotoPoint[]) => {
      for (const stroke of own) {
        if (points.some((point) => touches(stroke, point, radiusPx))) latest.current.erased.add(stroke);
      }
      setErased(new Set(latest.current.erased));
    };
    const use = tool === 'brush' ? paint : wipe;
    return {
      start(at) {
        clear();
        setCursor(null);
        use([screenToPhoto(view, at)]);
      },
      move: (places) => use(places.map((at) => screenToPhoto(view, at))),
      end() {
        const { draft: painted, erased: gone } = latest.current;
        clear();
        if (tool === 'brush' && painted) void teaching.paint(painted);
        if (tool === 'eraser') void teaching.erase([...gone]);
      },
      cancel: clear,
    };
  }, [tool, teaching, view, classId, radiusPx, own]);

  return {
    tool,
    setTool,
    radiusPx,
    largest,
    setRadius,
    draft,
    erased: erased as ReadonlySet<StrokeShape>,
    gestures,
    cursor,
    /** Moves the cursor of the keyboard, first to the middle of what is in sight. */
    step(dx: number, dy: number, middle: PhotoPoint): PhotoPoint {
      const [x, y] = cursor ?? middle;
      const within = (at: number, limit: number) => Math.round(Math.min(limit, Math.max(0, at)));
      const next = cursor ? photoPoint(within(x + dx, photo.width), within(y + dy, photo.height)) : middle;
      setCursor(next);
      return next;
    },
    hideCursor: () => setCursor(null),
    /** Puts a dot under the cursor, or wipes there. */
    stamp(at: PhotoPoint): void {
      if (tool === 'eraser') void teaching?.erase(own.filter((stroke) => touches(stroke, at, radiusPx)));
      else void teaching?.paint({ classId, radiusPx, points: [at] });
    },
  };
}

export type Brush = ReturnType<typeof useBrush>;
