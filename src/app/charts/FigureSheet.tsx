import type { Drawing, FigureContent } from './drawing.ts';
import { paint } from './paint.ts';
import { wrapText } from './textWidth.ts';

/** What a saved picture is for. */
export type PictureSize = 'print' | 'slide';

/**
 * Print: the width of a page's text, 170 mm, at 96 px an inch, as high as the picture needs. Slide: 16:9, drawn at half of 1920 x 1080
 * so that text reads from the back of a room.
 */
const SHEETS = {
  print: { widthPx: (170 / 25.4) * 96, heightPx: null, textPx: 11.5, marginPx: 10 },
  slide: { widthPx: 960, heightPx: 540, textPx: 13.5, marginPx: 26 },
} as const;

const FONTS = "Helvetica, Arial, 'Liberation Sans', 'Noto Sans', sans-serif";
const LEADING = 1.3;

/** A figure on white paper: title, picture, caption with n and interval, caution. */
export function FigureSheet({ content, size }: { content: FigureContent; size: PictureSize }) {
  const { widthPx, heightPx, textPx, marginPx } = SHEETS[size];
  const innerPx = widthPx - 2 * marginPx;
  const titlePx = textPx * 1.25;
  const smallPx = textPx * 0.82;
  const title = wrapText(content.title, innerPx, titlePx);
  const caption = wrapText(content.caption.join(' '), innerPx, smallPx);
  const caution = wrapText(content.caution.join(' '), innerPx, smallPx);
  const titleHeight = title.length * titlePx * LEADING + textPx * 0.8;
  const wordsHeight = (caption.length + caution.length) * smallPx * LEADING + textPx * 1.8;
  const room = heightPx === null ? null : heightPx - 2 * marginPx - titleHeight - wordsHeight;
  const { drawing, shrink } = drawInto(content, innerPx, room, textPx);
  const fullHeight = heightPx ?? Math.ceil(2 * marginPx + titleHeight + drawing.heightPx + wordsHeight);
  const drawingTop = marginPx + titleHeight;
  const wordsTop = heightPx === null ? drawingTop + drawing.heightPx : heightPx - marginPx - wordsHeight;
  return (
    <svg
      xmlns="http://www.w3.org/2000/svg"
      viewBox={`0 0 ${widthPx} ${fullHeight}`}
      width={widthPx}
      height={fullHeight}
      fontFamily={FONTS}
      role="img"
      aria-label={content.title}
    >
      <rect width={widthPx} height={fullHeight} fill={paint.sheet} />
      <Lines lines={title} x={marginPx} y={marginPx} textPx={titlePx} strong />
      <g
        transform={`translate(${marginPx + (innerPx - drawing.widthPx * shrink) / 2} ${drawingTop}) scale(${shrink})`}
      >
        {drawing.content}
      </g>
      <Lines lines={caption} x={marginPx} y={wordsTop + textPx * 0.8} textPx={smallPx} />
      <Lines
        lines={caution}
        x={marginPx}
        y={wordsTop + textPx * 1.2 + caption.length * smallPx * LEADING}
        textPx={smallPx}
        soft
      />
    </svg>
  );
}

/** How many times wider and higher a picture may be drawn that has more in it than fits, before it is made smaller as a whole. */
const ENLARGED = [1, 1.2, 1.4, 1.7, 2];

/** Draws for a width and, on a slide, a height; a picture that needs more height is drawn larger and then made smaller, words and all. */
function drawInto(content: FigureContent, widthPx: number, room: number | null, textPx: number) {
  if (room === null) return { drawing: content.draw({ widthPx, heightPx: null, textPx }), shrink: 1 };
  let drawing: Drawing | undefined;
  for (const times of ENLARGED) {
    drawing = content.draw({ widthPx: widthPx * times, heightPx: room * times, textPx });
    if (drawing.heightPx <= room * times + 1) break;
  }
  return { drawing: drawing!, shrink: Math.min(widthPx / drawing!.widthPx, room / drawing!.heightPx) };
}

interface LinesProps {
  readonly lines: readonly string[];
  readonly x: number;
  readonly y: number;
  readonly textPx: number;
  readonly strong?: boolean;
  readonly soft?: boolean;
}

function Lines({ lines, x, y, textPx, strong = false, soft = false }: LinesProps) {
  return (
    <g fontSize={textPx} fontWeight={strong ? 600 : 400} fill={soft ? paint.soft : paint.ink}>
      {lines.map((line, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: lines of one text
        <text key={index} x={x} y={y + textPx * (1 + index * LEADING)}>
          {line}
        </text>
      ))}
    </g>
  );
}
