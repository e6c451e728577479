import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import type { DrawingSize, FigureContent } from '../../../src/app/charts/drawing.ts';

const SIZE: DrawingSize = { widthPx: 720, heightPx: null, textPx: 12 };

/** A figure's drawing as text. */
export function drawn(content: FigureContent, size: Partial<DrawingSize> = {}): string {
  return renderToStaticMarkup(createElement('svg', null, content.draw({ ...SIZE, ...size }).content));
}

/** Attributes of the elements that play a part in the drawing, in the order they are drawn. */
export function parts(markup: string, part: string): Record<string, string>[] {
  return [...markup.matchAll(/<\w+ [^>]*>/g)]
    .map(([element]) =>
      Object.fromEntries(
        [...element.matchAll(/([\w-]+)="([^"]*)"/g)].map(([, name, value]) => [name!, value!]),
      ),
    )
    .filter((attributes) => attributes['data-part'] === part);
}

/** Numbers in a path, in turn. */
export const numbersIn = (path: string): number[] => [...path.matchAll(/-?\d+(?:\.\d+)?/g)].map(Number);
