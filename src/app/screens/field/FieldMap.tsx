import { fieldText } from '../../../core/text/field.ts';
import { groupBy } from '../../../core/trial/groupBy.ts';
import type { PhotographedStop } from '../../session/fieldDay.ts';
import styles from './FieldMap.module.css';

/** Sides of a plot on the map; plots of one row of a wide trial still tell apart. */
const [WIDTH, HEIGHT] = [10, 8];

interface FieldMapProps {
  readonly stops: readonly PhotographedStop[];
  readonly at: number;
  readonly onOpen: () => void;
}

/** The plots as they lie, row 1 in front: done, to do, left out, and here. The whole map opens the list of plots. */
export function FieldMap({ stops, at, onOpen }: FieldMapProps) {
  const here = stops[at]!.plot;
  const rows = Math.max(...stops.map(({ plot }) => plot.row));
  const columns = Math.max(...stops.map(({ plot }) => plot.column));
  const plots = [...groupBy(stops, ({ plot }) => plot.plot).values()];
  return (
    <button
      type="button"
      className={styles.map}
      aria-label={fieldText.map(here.plot, here.row, rows, here.column, columns)}
      onClick={onOpen}
    >
      <svg viewBox={`-1 -1 ${columns * WIDTH + 2} ${rows * HEIGHT + 2}`} aria-hidden="true" focusable="false">
        {plots.map((ofPlot) => {
          const { plot } = ofPlot[0]!;
          const [x, y] = [(plot.column - 1) * WIDTH, (rows - plot.row) * HEIGHT];
          const isHere = plot.plot === here.plot;
          const state = stateOf(ofPlot);
          return (
            <g key={plot.plot} transform={`translate(${x} ${y})`} data-state={state}>
              <rect x="0.7" y="0.7" width={WIDTH - 1.4} height={HEIGHT - 1.4} rx="0.8" />
              {state === 'skipped' && <path d="m3 2.500 4 3M7 2.500l-4 3" />}
              {state === 'retake' && <path d="M5 1.800v2.600M5 6v.01" />}
              {isHere && (
                <>
                  <rect className={styles.here} x="0" y="0" width={WIDTH} height={HEIGHT} rx="1.200" />
                  <circle className={styles.dot} cx={WIDTH / 2} cy={HEIGHT / 2} r="1.700" />
                </>
              )}
            </g>
          );
        })}
      </svg>
      <span aria-hidden="true">{fieldText.front}</span>
    </button>
  );
}

function stateOf(ofPlot: readonly PhotographedStop[]): 'taken' | 'retake' | 'skipped' | 'open' {
  if (ofPlot.some(({ verdict }) => verdict === 'retake')) return 'retake';
  if (ofPlot.every(({ photo }) => photo !== null)) return 'taken';
  if (ofPlot.every(({ photo, skipped }) => photo !== null || skipped !== null)) return 'skipped';
  return 'open';
}
