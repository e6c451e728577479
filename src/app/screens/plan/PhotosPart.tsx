import { useMemo, useState } from 'react';
import { formatDay } from '../../../core/text/format.ts';
import { planText } from '../../../core/text/plan.ts';
import type { BoardCell } from '../../../core/trial/photoBoard.ts';
import { AddingReport } from '../../components/AddingReport.tsx';
import { useAddPhotos } from '../../components/AddPhotos.tsx';
import { Button } from '../../components/Button.tsx';
import type { PhotoSummary } from '../../session/session.ts';
import { useObservable, usePhotos } from '../../session/useSession.tsx';
import { CellDialog, type OpenCell } from './CellDialog.tsx';
import { HeldPhotos } from './HeldPhotos.tsx';
import { PhotoRulesPanel } from './PhotoRulesPanel.tsx';
import styles from './PhotosPart.module.css';
import planStyles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';

const text = planText.board;
const STATES = ['there', 'missing', 'doubtful', 'double'] as const;
const DRAG_TYPE = 'application/x-swardbook-photos';

/** The board of plots by dates: which photos are there, missing, doubtful or double. */
export function PhotosPart() {
  const { session, plan, who } = usePlan();
  const { choose, takePhoto } = useAddPhotos();
  const board = useObservable(session.photos);
  const photos = usePhotos();
  const [open, setOpen] = useState<OpenCell | null>(null);
  const [said, setSaid] = useState('');
  const byId = useMemo(() => new Map(photos.map((photo) => [photo.id, photo])), [photos]);
  const { cells, ratingDates, placesPerPlot } = board;
  const counts = useMemo(() => countsOf(cells), [cells]);
  const rows = useMemo(() => rowsOf(cells, ratingDates.length), [cells, ratingDates.length]);

  const move = async (ids: readonly string[], to: { plot: string; place: number; ratingDate: string }) => {
    const place = placesPerPlot === 1 ? null : to.place;
    await session.place(ids, { plot: to.plot, ratingDate: to.ratingDate, place }, who);
    setSaid(text.moved(ids.length, to.plot, to.ratingDate));
  };

  if (plan.plots.length === 0) return <p>{text.needsPlots}</p>;
  if (ratingDates.length === 0) return <p>{text.needsDates}</p>;
  return (
    <div className={planStyles.sections}>
      <dl className={styles.counts}>
        {STATES.map((state) => (
          <div key={state} data-state={state}>
            <dt>{text.states[state]}</dt>
            <dd>{counts[state]}</dd>
          </div>
        ))}
        <div>
          <dt>{text.unplaced}</dt>
          <dd>{board.unplaced.length}</dd>
        </div>
      </dl>
      <div className={planStyles.row}>
        <Button look="main" onClick={choose}>
          {text.add}
        </Button>
        <Button className={styles.camera} onClick={takePhoto}>
          {text.takePhoto}
        </Button>
      </div>
      <AddingReport />
      <HeldPhotos board={board} photos={byId} />
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than the screen is scrolled with the keyboard */}
      <section className={planStyles.scroller} tabIndex={0} aria-label={text.caption}>
        <table className={styles.board}>
          <caption className="visually-hidden">{text.caption}</caption>
          <thead>
            <tr>
              <th scope="col">{text.plot}</th>
              {ratingDates.map((date) => (
                <th scope="col" key={date}>
                  {formatDay(date, 'short')}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => {
              const { plot, place } = row[0]!;
              return (
                <tr key={`${plot} ${place}`}>
                  <th scope="row">{placesPerPlot === 1 ? plot : text.plotPlace(plot, place)}</th>
                  {row.map((cell) => (
                    <td key={cell.ratingDate}>
                      <Cell cell={cell} byId={byId} onOpen={setOpen} onDrop={move} />
                    </td>
                  ))}
                </tr>
              );
            })}
          </tbody>
        </table>
      </section>
      <PhotoRulesPanel photos={photos} />
      {open && <CellDialog cell={open} board={board} photos={byId} onClose={() => setOpen(null)} />}
      <p className="visually-hidden" role="status">
        {said}
      </p>
    </div>
  );
}

interface CellProps {
  readonly cell: BoardCell;
  readonly byId: ReadonlyMap<string, PhotoSummary>;
  readonly onOpen: (cell: OpenCell) => void;
  readonly onDrop: (ids: readonly string[], to: BoardCell) => Promise<void>;
}

function Cell({ cell, byId, onOpen, onDrop }: CellProps) {
  const { plot, place, ratingDate, state, photos } = cell;
  const names = photos.map((id) => byId.get(id)?.name ?? '').join(', ');
  return (
    <button
      type="button"
      className={styles.cell}
      data-state={state}
      draggable={photos.length > 0}
      title={names}
      aria-label={text.cellWords(plot, place, ratingDate, text.states[state], photos.length)}
      onClick={() => onOpen({ plot, place, ratingDate })}
      onDragStart={(event) => {
        event.dataTransfer.setData(DRAG_TYPE, JSON.stringify(photos));
        event.dataTransfer.effectAllowed = 'move';
      }}
      onDragOver={(event) => {
        if (event.dataTransfer.types.includes(DRAG_TYPE)) event.preventDefault();
      }}
      onDrop={(event) => {
        const dragged = event.dataTransfer.getData(DRAG_TYPE);
        if (dragged) void onDrop(JSON.parse(dragged) as string[], cell);
      }}
    >
      {state === 'there' && photos.length > 1 ? text.subsamples(photos.length) : text.short[state]}
    </button>
  );
}

function countsOf(cells: readonly BoardCell[]) {
  const counts = { there: 0, missing: 0, doubtful: 0, double: 0 };
  for (const { state } of cells) counts[state] += 1;
  return counts;
}

/** The board's cells, a row for each plot and place. */
function rowsOf(cells: readonly BoardCell[], dates: number): BoardCell[][] {
  const rows: BoardCell[][] = [];
  for (let at = 0; at < cells.length; at += dates) rows.push(cells.slice(at, at + dates));
  return rows;
}
