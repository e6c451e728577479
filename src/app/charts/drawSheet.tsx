import { flushSync } from 'react-dom';
import { createRoot } from 'react-dom/client';
import type { FigureContent } from './drawing.ts';
import { FigureSheet, type PictureSize } from './FigureSheet.tsx';

/** A figure drawn for paper or slide, outside of the page. */
export function drawSheet(content: FigureContent, size: PictureSize): SVGSVGElement {
  const place = document.createElement('div');
  const root = createRoot(place);
  flushSync(() => root.render(<FigureSheet content={content} size={size} />));
  const svg = place.querySelector('svg')!.cloneNode(true) as SVGSVGElement;
  root.unmount();
  return svg;
}
