import { type KeyboardEvent, type PointerEvent, useId, useMemo, useRef, useState } from 'react';
import { chartText } from '../../core/text/charts.ts';
import type { Drawing, FigureContent, Mark } from './drawing.ts';
import styles from './Figure.module.css';
import { FigureSaving } from './FigureSaving.tsx';
import { FigureTableView } from './FigureTableView.tsx';
import { nearestMark, walk } from './markWalk.ts';
import { paint } from './paint.ts';
import { useWidth } from './useWidth.ts';

interface FigureProps {
  readonly content: FigureContent;
  readonly fileName: string;
  /** @default 3 */
  readonly headingLevel?: 2 | 3 | 4;
  /** Whether the table starts open, as in a report. @default false */
  readonly withTable?: boolean;
}

/** Width of the first drawing, and of the only one where nothing measures (a report). */
const FIRST_WIDTH = 720;
const TEXT = 12;

/** A picture with title, caption and its data as a table; keys and pointer show single values, and it can be saved. */
export function Figure({ content, fileName, headingLevel = 3, withTable = false }: FigureProps) {
  // a table may have thousands of rows, so it is made when somebody opens it
  const [tableOpen, setTableOpen] = useState(withTable);
  const { title, caption, table, draw } = content;
  const place = useRef<HTMLDivElement>(null);
  const widthPx = useWidth(place, FIRST_WIDTH);
  const drawing = useMemo(() => draw({ widthPx, heightPx: null, textPx: TEXT }), [draw, widthPx]);
  const Heading = `h${headingLevel}` as const;
  const id = useId();
  return (
    <figure className={styles.figure} aria-labelledby={`${id}title`}>
      <Heading id={`${id}title`} className={styles.title}>
        {title}
      </Heading>
      <div ref={place} className={styles.place}>
        <WalkedDrawing drawing={drawing} label={`${title}. ${caption[0] ?? ''}`} />
      </div>
      <figcaption className={styles.caption}>{caption.join(' ')}</figcaption>
      <div className={styles.foot}>
        <details open={tableOpen} onToggle={(event) => setTableOpen(event.currentTarget.open)}>
          <summary>{chartText.showTable}</summary>
          {tableOpen && <FigureTableView table={table} caption={title} />}
        </details>
        <FigureSaving title={title} fileName={fileName} make={async () => ({ content })} />
      </div>
    </figure>
  );
}

/** The drawing itself, with the mark that keys or pointer stopped at and its value in words. */
function WalkedDrawing({ drawing, label }: { drawing: Drawing; label: string }) {
  const { marks, widthPx, heightPx, content } = drawing;
  const [at, setAt] = useState<Mark | null>(null);
  const mark = at !== null && marks.includes(at) ? at : null;
  const onKeyDown = (event: KeyboardEvent) => {
    const next = walk(marks, mark, event.key);
    if (next === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    setAt(next);
  };
  const onPointer = (event: PointerEvent<SVGSVGElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    const scale = widthPx / box.width;
    setAt(nearestMark(marks, (event.clientX - box.left) * scale, (event.clientY - box.top) * scale));
  };
  const picture = (
    <svg
      viewBox={`0 0 ${widthPx} ${heightPx}`}
      width={widthPx}
      height={heightPx}
      role="img"
      aria-label={label}
      onPointerMove={onPointer}
      onPointerDown={onPointer}
      // a finger that is lifted leaves its value to be read
      onPointerLeave={({ pointerType }) => pointerType === 'mouse' && setAt(null)}
    >
      {content}
      {mark && (
        <circle cx={mark.x} cy={mark.y} r={11} fill="none" stroke={paint.ink} strokeWidth={2} data-at="" />
      )}
    </svg>
  );
  if (marks.length === 0) return picture;
  return (
    <>
      {/* biome-ignore lint/a11y/useSemanticElements: a picture to walk through, not fields of a form */}
      <div
        className={styles.walk}
        role="group"
        aria-label={chartText.keys(marks.length)}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the arrow keys walk its values
        tabIndex={0}
        onKeyDown={onKeyDown}
        onBlur={() => setAt(null)}
      >
        {picture}
      </div>
      <p className={styles.value} role="status">
        {mark ? mark.says : <span aria-hidden="true">{chartText.hint}</span>}
      </p>
    </>
  );
}
