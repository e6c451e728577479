import type { ReactNode } from 'react';
import { BottomAxis, ValueAxis } from './axes.tsx';
import type { DrawingSize } from './drawing.ts';
import { paint } from './paint.ts';
import { type ValueScale, valueScale } from './scales.ts';
import { textWidth } from './textWidth.ts';

interface ScatterOptions {
  readonly x: readonly (number | null)[];
  readonly y: readonly (number | null)[];
  readonly zeroX: boolean;
  readonly zeroY: boolean;
  readonly rangeY?: 'percent' | 'tight' | undefined;
  /** Room right of the panel for labels. @default 12 */
  readonly rightPx?: number;
  /** Height over width where the height is free. @default 0.6 */
  readonly aspect?: number;
}

/** Room between the ends of a scale and the edges of its panel. */
const INSET = 7;

/** Two number axes and where the panel lies. */
export interface ScatterLayout {
  readonly x: ValueScale;
  readonly y: ValueScale;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly heightPx: number;
}

export function scatterLayout(size: DrawingSize, options: ScatterOptions): ScatterLayout {
  const { widthPx, textPx } = size;
  const left = Math.ceil(textWidth('−00.0', textPx)) + 12;
  const right = widthPx - (options.rightPx ?? 12);
  const top = Math.ceil(textPx * 2.2);
  const below = Math.ceil(textPx * 3.6);
  const panelPx =
    size.heightPx === null
      ? Math.min(340, Math.max(190, (right - left) * (options.aspect ?? 0.6)))
      : Math.max(150, size.heightPx - top - below);
  const bottom = top + panelPx;
  const belowZero = options.y.some((value) => value !== null && value < 0);
  return {
    x: valueScale(options.x, { pixels: [left + INSET, right - INSET], zero: options.zeroX, apartPx: 95 }),
    y: valueScale(options.y, {
      // points stay whole at the edges, and 0 lies on the axis where nothing is below it
      pixels: [belowZero ? bottom - INSET : bottom, top + INSET],
      zero: options.zeroY,
      apartPx: 44,
      ...(options.rangeY ? { range: options.rangeY } : {}),
    }),
    left,
    right,
    top,
    bottom,
    heightPx: Math.ceil(bottom + below),
  };
}

interface ScatterPanelProps {
  readonly layout: ScatterLayout;
  readonly textPx: number;
  readonly nameX: string;
  readonly nameY: string;
  readonly children: ReactNode;
}

/** Axes with their names, and the points between them. */
export function ScatterPanel({ layout, textPx, nameX, nameY, children }: ScatterPanelProps) {
  const { x, y, left, right, top, bottom } = layout;
  return (
    <g>
      <text x={0} y={textPx} fontSize={textPx} fontWeight={600} fill={paint.ink}>
        {nameY}
      </text>
      <ValueAxis scale={y} x={[left, right]} textPx={textPx} />
      <BottomAxis scale={x} y={[bottom, bottom + 5]} textPx={textPx} />
      <line x1={left} x2={right} y1={bottom} y2={bottom} stroke={paint.strong} />
      <line x1={left} x2={left} y1={top} y2={bottom} stroke={paint.line} />
      <text
        x={(left + right) / 2}
        y={bottom + textPx * 3.1}
        fontSize={textPx}
        fontWeight={600}
        textAnchor="middle"
        fill={paint.ink}
      >
        {nameX}
      </text>
      {children}
    </g>
  );
}
