import { memo, useMemo, useRef, useState } from 'react';
import { formatDay } from '../../../core/text/format.ts';
import { planText } from '../../../core/text/plan.ts';
import type { BoardCell } from '../../../core/trial/photoBoard.ts';
import { AddingReport } from '../../components/AddingReport.tsx';
import { useAddPhotos } from '../../components/AddPhotos.tsx';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { FormField } from '../../components/FormField.tsx';
import { Notice } from '../../components/Notice.tsx';
import type { TrialPhotosState } from '../../session/placePhotos.ts';
import type { PhotoSummary } from '../../session/session.ts';
import { useObservable, usePhotos } from '../../session/useSession.tsx';
import { CellDialog, type OpenCell } from './CellDialog.tsx';
import { datesOfSeveralCameras } from './datesOfSeveralCameras.ts';
import { HeldPhotos } from './HeldPhotos.tsx';
import { PhotoRulesPanel } from './PhotoRulesPanel.tsx';
import styles from './PhotosPart.module.css';
import planStyles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';
import { ScoreBoard } from './ScoreBoard.tsx';
import { usePointerDrag } from './usePointerDrag.ts';

const text = planText.board;
const STATES = ['there', 'missing', 'doubtful', 'double'] as const;

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
  const labels = useObservable(session.labels);
  const table = useRef<HTMLTableElement>(null);
  const [shown, setShown] = useState('');
  const variable = plan.ratedVariables.find(({ id }) => id === shown);

  const move = async (ids: readonly string[], to: { plot: string; place: number; ratingDate: string }) => {
    const place = placesPerPlot === 1 ? null : to.place;
    const signature = { who, why: planText.signature.placed };
    await session.place(ids, { plot: to.plot, ratingDate: to.ratingDate, place }, signature);
    setSaid(text.moved(ids.length, to.plot, to.ratingDate));
  };

  const byKey = useMemo(() => new Map(cells.map((cell) => [keyOf(cell), cell])), [cells]);
  const { drag, onPointerDown } = usePointerDrag(
    table,
    (from, to) => void move(byKey.get(from)?.photos ?? [], byKey.get(to)!),
    (key) => (byKey.get(key)?.photos.length ?? 0) > 0,
  );

  if (plan.plots.length === 0) return <p>{text.needsPlots}</p>;
  if (ratingDates.length === 0) return <p>{text.needsDates}</p>;
  return (
    <div className={blocks.sections}>
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
      <div className={blocks.row}>
        <Button look="main" onClick={choose}>
          {text.add}
        </Button>
        <Button className={styles.camera} onClick={takePhoto}>
          {text.takePhoto}
        </Button>
      </div>
      <AddingReport />
      {labels.waiting > 0 && !labels.trouble && (
        <p className={blocks.soft}>{text.lookingForLabels(labels.waiting)}</p>
      )}
      {labels.trouble && (
        <Notice kind="trouble">
          <p>{text.labelsTrouble(labels.trouble)}</p>
        </Notice>
      )}
      <Cameras photos={photos} board={board} />
      <HeldPhotos board={board} photos={byId} />
      {plan.ratedVariables.length > 0 && (
        <FormField
          label={text.boardOf}
          value={shown}
          onChange={setShown}
          choices={[['', text.photos], ...plan.ratedVariables.map(({ id, name }) => [id, name] as const)]}
          narrow
        />
      )}
      {variable ? (
        <ScoreBoard variable={variable} plots={board.plots} ratingDates={ratingDates} />
      ) : (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than the screen is scrolled with the keyboard
        <section className={blocks.scroller} tabIndex={0} aria-label={text.caption}>
          <table ref={table} className={styles.board} onPointerDown={onPointerDown}>
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
                        <Cell
                          cell={cell}
                          byId={byId}
                          dragged={drag?.from === keyOf(cell)}
                          over={drag?.over === keyOf(cell)}
                          onOpen={setOpen}
                        />
                      </td>
                    ))}
                  </tr>
                );
              })}
            </tbody>
          </table>
        </section>
      )}
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
  readonly dragged: boolean;
  readonly over: boolean;
}

const keyOf = ({ plot, place, ratingDate }: BoardCell) => `${plot} ${place} ${ratingDate}`;

const Cell = memo(function Cell({ cell, byId, dragged, over, onOpen }: CellProps) {
  const { plot, place, ratingDate, state, photos } = cell;
  const names = photos.map((id) => byId.get(id)?.name ?? '').join(', ');
  return (
    <button
      type="button"
      className={styles.cell}
      data-state={state}
      data-drag-key={keyOf(cell)}
      data-dragged={dragged}
      data-over={over}
      title={names}
      aria-label={text.cellWords(plot, place, ratingDate, text.states[state], photos.length)}
      onClick={() => onOpen({ plot, place, ratingDate })}
    >
      {state === 'there' && photos.length > 1 ? text.subsamples(photos.length) : text.short[state]}
    </button>
  );
});

/** Where the photos of a date come from several cameras, since colours then differ with the camera. */
function Cameras({ photos, board }: { photos: readonly PhotoSummary[]; board: TrialPhotosState }) {
  const mixed = useMemo(() => datesOfSeveralCameras(photos, board), [photos, board]);
  if (mixed.length === 0) return null;
  return (
    <ul className={planStyles.notes}>
      {mixed.map(({ ratingDate, cameras }) => (
        <li key={ratingDate}>
          {text.severalCameras(
            ratingDate,
            cameras.map(({ device, photos: count }) => text.camera(device, count)),
          )}
        </li>
      ))}
    </ul>
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
