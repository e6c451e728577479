import { useMemo, useRef, useState } from 'react';
import { collectRuns } from '../../../../core/geometry/pixelRuns.ts';
import { type PhotoPoint, photoPoint, type ScreenPoint } from '../../../../core/geometry/points.ts';
import { forEachPolygonRun } from '../../../../core/geometry/polygonRuns.ts';
import { brushRadiusPx } from '../../../../core/mask/brushRadius.ts';
import { AUTOMATIC } from '../../../../core/mask/correctionLayer.ts';
import type { Paint } from '../../../../core/mask/maskEdit.ts';
import type { PaintGestures } from '../../../canvas/useViewGestures.ts';
import { photoToScreen, type Size, screenToPhoto, type View } from '../../../canvas/view.ts';
import { isBoolean, oneOf, usePreference } from '../../../components/usePreference.ts';
import type { Stroke } from '../../../session/correcting/correctingState.ts';
import type { Correcting } from '../../../session/correcting.ts';
import { ObservableValue } from '../../../session/observable.ts';

export type Tool = 'brush' | 'outline' | 'patch' | 'likeness' | 'move';
export type RadiusUnit = 'px' | 'mm';
/** What an outline does with what it holds. */
export type OutlineAction = 'paint' | 'smooth';

/** Where the tool is, and who put it there. */
export interface ToolPlace {
  readonly at: PhotoPoint | null;
  readonly byKeys: boolean;
}

const FIRST_RADIUS_PX = 12;
export const LARGEST_RADIUS_PX = 300;
export const LARGEST_RADIUS_MM = 200;
export const LARGEST_SMOOTHING_PX = 60;
export const LARGEST_TOLERANCE = 60;
/** A pen that hardly touches paints this share of the radius. */
const LIGHTEST_PRESS = 0.3;
/** A pointer that moved less was pressed in one place, in CSS pixels. */
const STILL_PX = 5;
/** An outline is closed by a press this near its first corner, in CSS pixels. */
const CLOSING_PX = 14;
/** Points of a drawn outline are at least this far apart, in CSS pixels. */
const SPACING_PX = 2;

const isPositive = (value: unknown): value is number => typeof value === 'number' && value > 0 && value < 1e4;

interface ToolOptions {
  readonly correcting: Correcting;
  readonly photo: Size;
  readonly view: View | null;
  readonly millimetresPerPixel: number | null;
}

/** The tools with what they are doing: by pointer, or by a cursor that keys move. */
export function useTools({ correcting, photo, view, millimetresPerPixel }: ToolOptions) {
  const [tool, chooseTool] = useState<Tool>('brush');
  const [label, setLabel] = useState(1);
  const [onlyOver, setOnlyOver] = useState<number | null>(null);
  const [radiusPx, setRadiusPx] = usePreference('correct.radiusPx', FIRST_RADIUS_PX, isPositive);
  const [radiusMm, setRadiusMm] = usePreference('correct.radiusMm', 10, isPositive);
  const [chosenUnit, setUnit] = usePreference<RadiusUnit>('correct.unit', 'px', oneOf('px', 'mm'));
  const [outlineAction, setOutlineAction] = useState<OutlineAction>('paint');
  const [smoothingPx, setSmoothingPx] = usePreference('correct.smoothing', 6, isPositive);
  const [tolerance, setToleranceValue] = usePreference('correct.tolerance', 14, isPositive);
  const [stopsAtEdges, setEdges] = usePreference('correct.edges', false, isBoolean);
  const [place] = useState(() => new ObservableValue<ToolPlace>({ at: null, byKeys: false }));
  const [outline] = useState(() => new ObservableValue<readonly PhotoPoint[]>([]));
  const running = useRef<{
    stroke: Stroke | null;
    from: ScreenPoint | null;
    corners: number;
    drawn: boolean;
  }>({
    stroke: null,
    from: null,
    corners: 0,
    drawn: false,
  });
  const lastStamp = useRef<PhotoPoint | null>(null);
  const unit: RadiusUnit = millimetresPerPixel === null ? 'px' : chosenUnit;
  const paint = useMemo<Paint>(() => ({ label, onlyOver }), [label, onlyOver]);

  const radiusAt = (at: PhotoPoint, pressure: number | null): number => {
    const { area } = correcting;
    const full = unit === 'mm' && area ? (brushRadiusPx(area, at, radiusMm) ?? radiusPx) : radiusPx;
    return pressure === null ? full : full * (LIGHTEST_PRESS + (1 - LIGHTEST_PRESS) * pressure);
  };
  const setTool = (next: Tool) => {
    outline.set([]);
    correcting.dropLikeness();
    lastStamp.current = null;
    chooseTool(next);
  };

  const closeOutline = (points = outline.get()) => {
    outline.set([]);
    if (points.length < 3) return;
    const region = collectRuns((visit) => forEachPolygonRun(points, photo.width, photo.height, visit));
    if (outlineAction === 'smooth') void correcting.smooth(region, smoothingPx);
    else correcting.fill(region, paint, 'outline');
  };

  const applyAt = async (which: Tool, at: PhotoPoint) => {
    if (which === 'patch') await correcting.fillPatch(at, paint);
    if (which === 'likeness' && (await correcting.seedLikeness(at))) {
      correcting.growLikeness(tolerance, stopsAtEdges);
    }
  };

  const gesturesOn = (view: View): PaintGestures => {
    const now = running.current;
    const point = (at: ScreenPoint) => screenToPhoto(view, at);
    const brushPoint = (at: ScreenPoint, pressure: number | null) => {
      const here = point(at);
      return { at: here, radiusPx: radiusAt(here, pressure) };
    };
    const far = (a: ScreenPoint, b: ScreenPoint, limit: number) =>
      Math.hypot(a[0] - b[0], a[1] - b[1]) >= limit;
    return {
      start(at, pressure) {
        place.set({ at: point(at), byKeys: false });
        now.from = at;
        now.drawn = false;
        now.corners = outline.get().length;
        if (tool !== 'brush') return;
        now.stroke = correcting.begin(paint);
        now.stroke?.moveTo(brushPoint(at, pressure));
      },
      move(places, pressures) {
        places.forEach((at, i) => {
          now.stroke?.moveTo(brushPoint(at, pressures[i] ?? null));
        });
        if (tool !== 'outline' || !now.from) return;
        const points = [...outline.get()];
        for (const at of places) {
          if (!now.drawn && !far(at, now.from, STILL_PX)) continue;
          if (!now.drawn) points.push(point(now.from));
          now.drawn = true;
          const last = points.at(-1);
          if (!last || far(at, photoToScreen(view, last), SPACING_PX)) points.push(point(at));
        }
        if (now.drawn) outline.set(points);
      },
      end() {
        const { stroke, from, drawn } = now;
        now.stroke = null;
        now.from = null;
        stroke?.end();
        if (!from) return;
        if (tool === 'patch' || tool === 'likeness') void applyAt(tool, point(from));
        if (tool !== 'outline') return;
        const points = outline.get();
        const [first] = points;
        const closes =
          drawn || (points.length >= 3 && first && !far(from, photoToScreen(view, first), CLOSING_PX));
        if (closes) closeOutline(points);
        else outline.set([...points, point(from)]);
      },
      cancel() {
        now.stroke?.cancel();
        now.stroke = null;
        now.from = null;
        if (tool === 'outline') outline.set(outline.get().slice(0, now.corners));
      },
    };
  };

  return {
    tool,
    setTool,
    label,
    setLabel,
    onlyOver,
    setOnlyOver,
    paint,
    unit,
    setUnit,
    radius: unit === 'mm' ? radiusMm : radiusPx,
    largestRadius: unit === 'mm' ? LARGEST_RADIUS_MM : LARGEST_RADIUS_PX,
    setRadius(value: number) {
      const most = unit === 'mm' ? LARGEST_RADIUS_MM : LARGEST_RADIUS_PX;
      (unit === 'mm' ? setRadiusMm : setRadiusPx)(Math.min(most, Math.max(1, Math.round(value))));
    },
    radiusAt: (at: PhotoPoint) => radiusAt(at, null),
    outlineAction,
    setOutlineAction,
    smoothingPx,
    setSmoothingPx,
    tolerance,
    setTolerance(value: number) {
      setToleranceValue(Math.max(0.5, value));
      correcting.growLikeness(value, stopsAtEdges);
    },
    stopsAtEdges,
    setStopsAtEdges(on: boolean) {
      setEdges(on);
      correcting.growLikeness(tolerance, on);
    },
    applyLikeness: () => correcting.applyLikeness(paint),
    gestures: tool === 'move' || !view ? null : gesturesOn(view),
    place: place as ObservableValue<ToolPlace>,
    outline: outline as ObservableValue<readonly PhotoPoint[]>,
    closeOutline: () => closeOutline(),
    /** Gives up what was begun. @returns whether anything was */
    giveUp(): boolean {
      const begun = outline.get().length > 0 || correcting.state.get().preview !== null;
      outline.set([]);
      correcting.dropLikeness();
      return begun;
    },
    /** Moves the cursor of the keyboard, first to the middle of what is in sight. */
    step(dx: number, dy: number, middle: PhotoPoint): PhotoPoint {
      const { at, byKeys } = place.get();
      const within = (value: number, limit: number) => Math.round(Math.min(limit, Math.max(0, value)));
      const next =
        at && byKeys ? photoPoint(within(at[0] + dx, photo.width), within(at[1] + dy, photo.height)) : middle;
      place.set({ at: next, byKeys: true });
      return next;
    },
    /** Uses the tool at the cursor. `onward` draws on from the last place the brush was put. */
    applyAtCursor(at: PhotoPoint, onward: boolean): void {
      if (tool === 'brush') {
        const stroke = correcting.begin(paint);
        const from = onward ? lastStamp.current : null;
        if (from) stroke?.moveTo({ at: from, radiusPx: radiusAt(from, null) });
        stroke?.moveTo({ at, radiusPx: radiusAt(at, null) });
        stroke?.end();
        lastStamp.current = at;
        return;
      }
      if (tool === 'outline') {
        const points = outline.get();
        const isSame = (other: PhotoPoint | undefined) => other?.[0] === at[0] && other[1] === at[1];
        if (points.length >= 3 && (isSame(points.at(-1)) || isSame(points[0]))) closeOutline(points);
        else outline.set([...points, at]);
        return;
      }
      if (tool === 'likeness' && correcting.state.get().preview) {
        correcting.applyLikeness(paint);
        return;
      }
      void applyAt(tool, at);
    },
    takesBack: label === AUTOMATIC,
  };
}

export type Tools = ReturnType<typeof useTools>;
