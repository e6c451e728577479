import { type KeyboardEvent, useMemo, useRef, useState } from 'react';
import { planText } from '../../../core/text/plan.ts';
import { APPLICATION_CAUTION } from '../../../core/text/trial.ts';
import { swapTreatments } from '../../../core/trial/layout.ts';
import { adjacentTreatments } from '../../../core/trial/treatment.ts';
import { walkingOrder } from '../../../core/trial/walkingOrder.ts';
import styles from './PlotMap.module.css';
import { usePlan } from './planContext.tsx';
import { usePointerDrag } from './usePointerDrag.ts';

const text = planText.layout;

/**
 * The plots as they lie, row 1 nearest to the person. Two plots are swapped by dragging one onto the other, by pressing one
 * and then the other, or with the arrow keys and Enter.
 */
export function PlotMap() {
  const { plan, trial, edit } = usePlan();
  const { plots } = plan;
  const [picked, setPicked] = useState<string | null>(null);
  const [said, setSaid] = useState('');
  const map = useRef<HTMLDivElement>(null);
  const { rows, columns, positions } = useMemo(() => {
    const order = walkingOrder(plots, trial.photoRules.walk);
    return {
      rows: Math.max(...plots.map(({ row }) => row)),
      columns: Math.max(...plots.map(({ column }) => column)),
      positions: new Map(order.map(({ plot }, index) => [plot, index + 1])),
    };
  }, [plots, trial.photoRules.walk]);
  const beside = adjacentTreatments(plan.treatments);
  const names = new Map(plan.treatments.map(({ number, name }) => [number, name]));

  const swap = async (first: string, second: string) => {
    setPicked(null);
    if (first === second) return;
    const result = await edit((before) => ({
      ...before,
      plots: swapTreatments(before.plots, first, second),
      layout: before.layout && { ...before.layout, swaps: [...before.layout.swaps, [first, second]] },
    }));
    if (result.ok) setSaid(text.swapped(first, second));
  };
  const { drag, onPointerDown } = usePointerDrag(map, (from, to) => void swap(from, to));
  const press = (plot: string) => {
    if (picked === null) {
      setPicked(plot);
      setSaid(text.picked(plot));
    } else void swap(picked, plot);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const at = plots.find(({ plot }) => plot === (event.target as HTMLElement).dataset.plot);
    if (event.key === 'Escape' && picked !== null) {
      event.stopPropagation();
      setPicked(null);
      setSaid(text.unpicked);
    }
    const step = { ArrowUp: [1, 0], ArrowDown: [-1, 0], ArrowLeft: [0, -1], ArrowRight: [0, 1] }[event.key];
    if (!at || !step) return;
    event.preventDefault();
    const next = plots.find(
      ({ row, column }) => row === at.row + step[0]! && column === at.column + step[1]!,
    );
    if (next) map.current!.querySelector<HTMLElement>(`[data-plot="${CSS.escape(next.plot)}"]`)?.focus();
  };

  return (
    <figure className={styles.figure}>
      <div className={styles.scroller}>
        {/* biome-ignore lint/a11y/useSemanticElements: plots to press, not fields of a form */}
        <div
          ref={map}
          role="group"
          aria-label={text.mapHelp}
          className={styles.map}
          style={{ gridTemplateColumns: `repeat(${columns}, minmax(6.5rem, 1fr))` }}
          onKeyDown={onKeyDown}
          onPointerDown={onPointerDown}
        >
          {plots.map(({ plot, treatment, block, row, column }) => (
            <button
              key={plot}
              type="button"
              className={styles.plot}
              style={{ gridRow: rows - row + 1, gridColumn: column }}
              data-plot={plot}
              data-shade={block !== null && block % 2 === 0}
              data-drag-key={plot}
              data-adjacent={beside.has(treatment)}
              data-dragged={drag?.from === plot}
              data-over={drag?.over === plot}
              aria-pressed={picked === plot}
              onClick={() => press(plot)}
            >
              <span className={styles.name}>
                <span>
                  <Spoken words={text.plot} />
                  {plot}
                  <Spoken words="," />
                </span>
                <span>
                  {positions.get(plot)}
                  <Spoken words={text.inTheWalk} />
                </span>
              </span>
              <strong className={styles.treatment}>
                <Spoken words={text.treatment} />
                {treatment}
              </strong>
              <span className={styles.words}>{names.get(treatment)}</span>
              {beside.has(treatment) && <span className={styles.beside}>{text.adjacent}</span>}
            </button>
          ))}
        </div>
      </div>
      <figcaption className={styles.caption}>
        {text.mapCaption} <span className={styles.screenOnly}>{text.mapHint}</span>
      </figcaption>
      <p className={styles.caption}>{APPLICATION_CAUTION}</p>
      <p className="visually-hidden" role="status">
        {said}
      </p>
    </figure>
  );
}

/** What the look of the map says without words. */
const Spoken = ({ words }: { words: string }) => <span className="visually-hidden"> {words} </span>;
