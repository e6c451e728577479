import { useMemo } from 'react';
import type { FigureContent } from './drawing.ts';

/** A figure made from its props, made anew only when one of them changes. */
export function useFigureContent<P extends object>(
  make: (props: P) => FigureContent,
  props: P,
): FigureContent {
  // biome-ignore lint/correctness/useExhaustiveDependencies: the values of the props stand for the props
  return useMemo(() => make(props), [make, ...Object.values(props)]);
}
