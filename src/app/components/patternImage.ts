import { classPattern, PATTERN_SIDE } from '../canvas/classPatterns.ts';
import { inkOn } from '../canvas/colours.ts';

/** The pattern of a class as a CSS image, drawn faintly in whatever reads on the class's colour. */
export function patternImage(index: number, colour: string): string {
  const marks = classPattern(index)
    .map((mark, at) => (mark ? `M${at % PATTERN_SIDE} ${Math.floor(at / PATTERN_SIDE)}h1v1h-1z` : ''))
    .join('');
  const svg = `<svg xmlns='http://www.w3.org/2000/svg' width='${PATTERN_SIDE}' height='${PATTERN_SIDE}'><path d='${marks}' fill='${inkOn(colour)}' opacity='.22' shape-rendering='crispEdges'/></svg>`;
  return `url("data:image/svg+xml,${encodeURIComponent(svg)}")`;
}
