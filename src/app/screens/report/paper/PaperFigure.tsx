import type { FigureContent } from '../../../charts/drawing.ts';

/** Width of a page's text, 170 mm at 96 pixels an inch. */
const WIDTH_PX = (170 / 25.4) * 96;
const TEXT_PX = 11.5;

/** A chart as a numbered figure: its own drawing, its words as the caption. */
export function PaperFigure({ content, widthPx = WIDTH_PX }: { content: FigureContent; widthPx?: number }) {
  const drawing = content.draw({ widthPx, heightPx: null, textPx: TEXT_PX });
  return (
    <figure className="paper-figure paper-numbered">
      <svg
        xmlns="http://www.w3.org/2000/svg"
        viewBox={`0 0 ${drawing.widthPx} ${drawing.heightPx}`}
        width={drawing.widthPx}
        height={drawing.heightPx}
        fontFamily="'Liberation Sans', Helvetica, Arial, 'Noto Sans', sans-serif"
        role="img"
        aria-label={content.title}
      >
        {drawing.content}
      </svg>
      <figcaption>
        <b>{content.title}.</b> {content.caption.join(' ')}
      </figcaption>
    </figure>
  );
}
