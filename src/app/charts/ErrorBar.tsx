import { round } from './Marker.tsx';

interface ErrorBarProps {
  readonly x: number;
  /** Pixels of the lower and the upper end. */
  readonly y: readonly [number, number];
  readonly colour: string;
  /** Half the width of the caps. @default 3.5 */
  readonly cap?: number;
}

/** An upright bar with caps. */
export function ErrorBar({ x, y, colour, cap = 3.5 }: ErrorBarProps) {
  const [low, high] = y.map(round) as [number, number];
  const at = round(x);
  return (
    <path
      d={`M${round(at - cap)} ${low}h${round(2 * cap)}M${at} ${low}V${high}M${round(at - cap)} ${high}h${round(2 * cap)}`}
      fill="none"
      stroke={colour}
      strokeWidth={1.5}
      data-part="error-bar"
    />
  );
}
