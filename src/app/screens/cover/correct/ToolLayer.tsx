import { useCallback } from 'react';
import type { PixelRuns } from '../../../../core/geometry/pixelRuns.ts';
import { CanvasLayer } from '../../../canvas/CanvasLayer.tsx';
import type { Surface } from '../../../canvas/useSurface.ts';
import { inDevicePixels, photoToScreen, type View } from '../../../canvas/view.ts';
import { useObservable } from '../../../session/useSession.tsx';
import styles from './CorrectScreen.module.css';
import type { Tools } from './useTools.ts';

interface ToolLayerProps {
  readonly tools: Tools;
  readonly view: View;
  readonly surface: Surface;
  /** What growth by likeness would reach. */
  readonly preview: PixelRuns | null;
}

/** The tool on the photo: brush or cross, the outline so far, what a fill would reach. */
export function ToolLayer({ tools, view, surface, preview }: ToolLayerProps) {
  return (
    <>
      {preview && <Preview preview={preview} view={view} surface={surface} />}
      <svg className={styles.cursor} aria-hidden="true">
        <Outline tools={tools} view={view} />
        <Cursor tools={tools} view={view} />
      </svg>
    </>
  );
}

const LEAST_RADIUS_PX = 3;
const CROSS_PX = 9;

function Cursor({ tools, view }: { tools: Tools; view: View }) {
  const { at, byKeys } = useObservable(tools.place);
  if (!at || tools.tool === 'move') return null;
  const [x, y] = photoToScreen(view, at);
  const isBrush = tools.tool === 'brush';
  const radius = isBrush ? Math.max(LEAST_RADIUS_PX, tools.radiusAt(at) * view.scale) : CROSS_PX;
  const cross = `M${x - radius - 8} ${y}h8M${x + radius} ${y}h8M${x} ${y - radius - 8}v8M${x} ${y + radius}v8`;
  return [styles.halo, styles.line].map((name) => (
    <g key={name} className={name}>
      {isBrush && <circle cx={x} cy={y} r={radius} />}
      {(byKeys || !isBrush) && <path d={cross} />}
    </g>
  ));
}

function Outline({ tools, view }: { tools: Tools; view: View }) {
  const points = useObservable(tools.outline);
  const { at, byKeys } = useObservable(tools.place);
  if (points.length === 0) return null;
  const next = byKeys && at ? [...points, at] : points;
  const line = next.map((point) => photoToScreen(view, point).join(',')).join(' ');
  const first = photoToScreen(view, points[0]!);
  return [styles.halo, styles.line].map((name) => (
    <g key={name} className={name}>
      <polyline points={line} />
      <circle cx={first[0]} cy={first[1]} r={6} />
    </g>
  ));
}

function Preview({ preview, view, surface }: { preview: PixelRuns; view: View; surface: Surface }) {
  const { pixelRatio } = surface;
  const draw = useCallback(
    (context: CanvasRenderingContext2D) => {
      const { scale, origin } = inDevicePixels(view, pixelRatio);
      context.setTransform(1, 0, 0, 1, 0, 0);
      context.clearRect(0, 0, context.canvas.width, context.canvas.height);
      context.setTransform(scale, 0, 0, scale, origin[0], origin[1]);
      context.fillStyle = '#fff';
      context.beginPath();
      const { runs } = preview;
      for (let i = 0; i < runs.length; i += 3) {
        context.rect(runs[i + 1]!, runs[i]!, runs[i + 2]! - runs[i + 1]!, 1);
      }
      context.fill();
    },
    [preview, view, pixelRatio],
  );
  return <CanvasLayer surface={surface} draw={draw} opacity={0.7} />;
}
