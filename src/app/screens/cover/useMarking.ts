import { useMemo, useRef, useState } from 'react';
import { outlineWithin, outsideOf } from '../../../core/geometry/outline.ts';
import { type PhotoPoint, photoPoint, type ScreenPoint, screenPoint } from '../../../core/geometry/points.ts';
import { area as words } from '../../../core/text/area.ts';
import type { ShownOutline } from '../../canvas/OutlineLayer.tsx';
import type { PaintGestures } from '../../canvas/useViewGestures.ts';
import { photoToScreen, type Size, screenToPhoto, type View } from '../../canvas/view.ts';
import type { AreaControl } from './useArea.ts';

/** What a press on the photo marks: nothing, a corner of an area left out or of the ground measured, a corner of the card. */
export type DrawingKind = 'ignored' | 'outline' | 'card';

export interface Marking {
  /** What is on the photo beside the frame. */
  readonly outlines: readonly ShownOutline[];
  readonly drawing: DrawingKind | null;
  readonly draft: readonly PhotoPoint[];
  readonly chosenId: string | null;
  readonly gestures: PaintGestures | null;
  begin(kind: DrawingKind): void;
  /** Takes what was drawn so far for the whole; needs three corners. */
  close(): void;
  cancel(): void;
  /** An area in the middle of what is in sight, for those who draw by keys. */
  addSquare(): void;
  choose(id: string | null): void;
  move(id: string, points: readonly PhotoPoint[]): void;
  place(id: string, points: readonly PhotoPoint[]): void;
  remove(id: string): void;
  setCard(rectangle: readonly [number, number, number, number]): void;
}

/** A press this near to the first corner closes the outline. */
const CLOSING_PX = 18;
/** Side of a square added by keys, as a share of the shorter side of what is in sight. */
const SQUARE_SHARE = 0.2;

const rounded = ([x, y]: PhotoPoint, { width, height }: Size): PhotoPoint => {
  const within = (at: number, limit: number) => Math.round(Math.min(limit, Math.max(0, at)) * 10) / 10;
  return photoPoint(within(x, width), within(y, height));
};

/** Ignored areas, a free outline and the grey card while a person marks them on the photo. */
export function useMarking(
  control: AreaControl,
  size: Size,
  view: View | null,
  surface: Size | null,
): Marking {
  const { area, change } = control;
  const [drawing, setDrawing] = useState<DrawingKind | null>(null);
  const [draft, setDraft] = useState<readonly PhotoPoint[]>([]);
  const [chosenId, setChosenId] = useState<string | null>(null);
  const [moving, setMoving] = useState<{ id: string; points: readonly PhotoPoint[] } | null>(null);

  const outlines = useMemo((): ShownOutline[] => {
    let names = 0;
    const polygons = (area?.ignored ?? []).map((polygon, index): ShownOutline => {
      const inner = outlineWithin(polygon, size.width, size.height);
      const id = `ignored-${index}`;
      const points = moving?.id === id ? moving.points : (inner ?? polygon);
      return inner
        ? { id, kind: 'measured', name: words.outlineTitle, points }
        : { id, kind: 'ignored', name: words.ignoredName(names++), points };
    });
    const card = area?.neutral;
    if (!card) return polygons;
    const [left, top, width, height] = card;
    const at = (x: number, y: number) => photoPoint(left + x * width, top + y * height);
    const points = [at(0, 0), at(1, 0), at(1, 1), at(0, 1)];
    return [...polygons, { id: 'card', kind: 'card', name: words.card, points }];
  }, [area, size, moving]);

  const stop = () => {
    setDrawing(null);
    setDraft([]);
  };
  const polygonOf = (outline: ShownOutline | undefined, points: readonly PhotoPoint[]) =>
    outline?.kind === 'measured' ? outsideOf(points, size.width, size.height) : points;
  const take = (kind: 'ignored' | 'outline', points: readonly PhotoPoint[]) => {
    stop();
    if (points.length < 3) return;
    change((before) => {
      if (kind === 'ignored') return { ...before, ignored: [...before.ignored, points] };
      const others = before.ignored.filter((polygon) => !outlineWithin(polygon, size.width, size.height));
      const outside = outsideOf(points, size.width, size.height);
      return { ...before, frame: null, frameBy: 'person', ignored: [...others, outside] };
    });
  };
  const setCard: Marking['setCard'] = (neutral) =>
    change((before) => ({ ...before, neutral, neutralBy: 'person' }));
  const press = (at: ScreenPoint) => {
    if (!view || !drawing) return;
    const point = rounded(screenToPhoto(view, at), size);
    const first = draft[0];
    if (drawing === 'card') {
      if (!first) return setDraft([point]);
      const [x, y] = [Math.min(first[0], point[0]), Math.min(first[1], point[1])];
      const [width, height] = [Math.abs(first[0] - point[0]), Math.abs(first[1] - point[1])];
      if (width < 1 || height < 1) return;
      stop();
      return setCard([x, y, width, height]);
    }
    const start = first && photoToScreen(view, first);
    const closes = start && draft.length > 2 && Math.hypot(start[0] - at[0], start[1] - at[1]) < CLOSING_PX;
    if (closes) take(drawing, draft);
    else setDraft([...draft, point]);
  };
  const last = useRef<ScreenPoint | null>(null);
  return {
    outlines,
    drawing,
    draft,
    chosenId,
    gestures: drawing && {
      start: (at) => {
        last.current = at;
      },
      move: (places) => {
        last.current = places.at(-1) ?? last.current;
      },
      end: () => {
        if (last.current) press(last.current);
      },
      cancel: () => {
        last.current = null;
      },
    },
    begin(kind) {
      setDraft([]);
      setChosenId(null);
      setDrawing(kind);
    },
    close() {
      if (drawing === 'ignored' || drawing === 'outline') take(drawing, draft);
    },
    cancel: stop,
    addSquare() {
      if (!view || !surface || !area) return;
      const [x, y] = screenToPhoto(view, screenPoint(surface.width / 2, surface.height / 2));
      const half = (SQUARE_SHARE / 2) * (Math.min(surface.width, surface.height) / view.scale);
      const points = [
        [x - half, y - half],
        [x + half, y - half],
        [x + half, y + half],
        [x - half, y + half],
      ].map((point) => rounded(photoPoint(point[0]!, point[1]!), size));
      const kind = drawing === 'outline' ? 'outline' : 'ignored';
      take(kind, points);
      const kept =
        kind === 'ignored'
          ? area.ignored.length
          : area.ignored.filter((polygon) => !outlineWithin(polygon, size.width, size.height)).length;
      setChosenId(`ignored-${kept}`);
    },
    choose: setChosenId,
    move: (id, points) => setMoving({ id, points }),
    place(id, points) {
      setMoving(null);
      const outline = outlines.find((one) => one.id === id);
      change((before) => ({
        ...before,
        ignored: before.ignored.map((polygon, index) =>
          id === `ignored-${index}` ? polygonOf(outline, points) : polygon,
        ),
      }));
    },
    remove(id) {
      setChosenId(null);
      change((before) => ({
        ...before,
        ignored: before.ignored.filter((_, index) => id !== `ignored-${index}`),
      }));
    },
    setCard,
  };
}
