import { useCallback } from 'react';
import type { PhotoPoint } from '../../../../core/geometry/points.ts';
import type { CoverClass } from '../../../../core/trial/coverClass.ts';
import { CanvasLayer } from '../../../canvas/CanvasLayer.tsx';
import { drawStrokes, type StrokeShape } from '../../../canvas/strokeShapes.ts';
import type { Surface } from '../../../canvas/useSurface.ts';
import { inDevicePixels, photoToScreen, type View } from '../../../canvas/view.ts';
import styles from './TeachScreen.module.css';

interface StrokeLayerProps {
  readonly surface: Surface;
  readonly view: View;
  readonly classes: readonly CoverClass[];
  readonly strokes: readonly StrokeShape[];
  readonly draft: StrokeShape | null;
  readonly fading: ReadonlySet<StrokeShape>;
  /** Where the brush is shown: under the pointer, or where keys moved it. */
  readonly at: PhotoPoint | null;
  readonly radiusPx: number;
  readonly byKeys: boolean;
}

const NONE: ReadonlySet<StrokeShape> = new Set();

/** The strokes on the photo; the one being painted has a canvas of its own, so that the others are not drawn again. */
export function StrokeLayer(props: StrokeLayerProps) {
  const { surface, view, classes, strokes, draft, fading, at, radiusPx, byKeys } = props;
  const { pixelRatio } = surface;
  const drawStored = useCallback(
    (context: CanvasRenderingContext2D) =>
      drawStrokes(context, strokes, classes, inDevicePixels(view, pixelRatio), pixelRatio, fading),
    [strokes, classes, view, pixelRatio, fading],
  );
  const drawDraft = useCallback(
    (context: CanvasRenderingContext2D) =>
      drawStrokes(context, draft ? [draft] : [], classes, inDevicePixels(view, pixelRatio), pixelRatio, NONE),
    [draft, classes, view, pixelRatio],
  );
  const place = at && photoToScreen(view, at);
  const radius = Math.max(3, radiusPx * view.scale);
  return (
    <>
      <CanvasLayer surface={surface} draw={drawStored} />
      <CanvasLayer surface={surface} draw={drawDraft} />
      {place && (
        <svg className={styles.cursor} aria-hidden="true">
          <circle cx={place[0]} cy={place[1]} r={radius} className={styles.cursorHalo} />
          <circle cx={place[0]} cy={place[1]} r={radius} className={styles.cursorLine} />
          {byKeys && (
            <path
              d={`M${place[0] - radius - 8} ${place[1]}h8M${place[0] + radius} ${place[1]}h8M${place[0]} ${place[1] - radius - 8}v8M${place[0]} ${place[1] + radius}v8`}
              className={styles.cursorLine}
            />
          )}
        </svg>
      )}
    </>
  );
}
