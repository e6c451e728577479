import { round } from './Marker.tsx';

/**
 * Path through points in turn; a null breaks it, and a point alone between two breaks gets no line.
 */
export function linePath(points: readonly (readonly [x: number, y: number] | null)[]): string {
  let path = '';
  let open = false;
  for (const point of points) {
    if (point === null) {
      open = false;
      continue;
    }
    path += `${open ? 'L' : 'M'}${round(point[0])} ${round(point[1])}`;
    open = true;
  }
  return path;
}
