import { paint } from './paint.ts';
import type { MarkerShape, TreatmentStyle } from './treatmentStyle.ts';

interface MarkerProps {
  readonly x: number;
  readonly y: number;
  readonly look: Pick<TreatmentStyle, 'colour' | 'shape' | 'filled'>;
  /** Half its extent. @default 5 */
  readonly radius?: number;
}

/** The sign of a treatment at a value; open ones hide the line behind them. */
export function Marker({ x, y, look, radius = 5 }: MarkerProps) {
  return (
    <path
      d={outline(look.shape, radius)}
      transform={`translate(${round(x)} ${round(y)})`}
      fill={look.filled ? look.colour : paint.sheet}
      stroke={look.filled ? paint.sheet : look.colour}
      strokeWidth={look.filled ? 1 : 1.75}
      strokeLinejoin="round"
    />
  );
}

/** Outlines of about equal weight to the eye, round the origin. */
function outline(shape: MarkerShape, radius: number): string {
  const r = (factor: number) => round(radius * factor);
  switch (shape) {
    case 'circle':
      return `M${-r(1)} 0a${r(1)} ${r(1)} 0 1 0 ${r(2)} 0a${r(1)} ${r(1)} 0 1 0 ${-r(2)} 0Z`;
    case 'square':
      return `M${-r(0.9)} ${-r(0.9)}H${r(0.9)}V${r(0.9)}H${-r(0.9)}Z`;
    case 'triangle':
      return `M0 ${-r(1.15)}L${r(1.1)} ${r(0.85)}H${-r(1.1)}Z`;
    case 'triangle-down':
      return `M0 ${r(1.15)}L${r(1.1)} ${-r(0.85)}H${-r(1.1)}Z`;
    case 'diamond':
      return `M0 ${-r(1.3)}L${r(1.15)} 0L0 ${r(1.3)}L${-r(1.15)} 0Z`;
    case 'cross':
      return `M${-r(0.4)} ${-r(1.15)}h${r(0.8)}v${r(0.75)}h${r(0.75)}v${r(0.8)}h${-r(0.75)}v${r(0.75)}h${-r(0.8)}v${-r(0.75)}h${-r(0.75)}v${-r(0.8)}h${r(0.75)}Z`;
  }
}

/** Two decimals are finer than any screen or printer. */
export function round(value: number): number {
  return Math.round(value * 100) / 100;
}
