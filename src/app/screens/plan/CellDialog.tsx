import { planText } from '../../../core/text/plan.ts';
import { Dialog } from '../../components/Dialog.tsx';
import type { TrialPhotosState } from '../../session/placePhotos.ts';
import type { PhotoSummary } from '../../session/session.ts';
import styles from './PhotosPart.module.css';
import { PlacePhoto } from './PlacePhoto.tsx';

const text = planText.board;

export interface OpenCell {
  readonly plot: string;
  readonly place: number;
  readonly ratingDate: string;
}

interface CellDialogProps {
  readonly cell: OpenCell;
  readonly board: TrialPhotosState;
  readonly photos: ReadonlyMap<string, PhotoSummary>;
  readonly onClose: () => void;
}

/** The photos of one plot and date, and where else they may belong. */
export function CellDialog({ cell, board, photos, onClose }: CellDialogProps) {
  const { plot, place, ratingDate } = cell;
  const ids =
    board.cells.find((one) => one.plot === plot && one.place === place && one.ratingDate === ratingDate)
      ?.photos ?? [];
  return (
    <Dialog title={text.cellTitle(plot, place, ratingDate, board.placesPerPlot)} onClose={onClose}>
      {ids.length === 0 ? (
        <p>{text.cellEmpty}</p>
      ) : (
        <ul className={styles.held}>
          {ids.map((id) => {
            const [photo, placed] = [photos.get(id), board.photos.get(id)];
            return photo && placed ? (
              <PlacePhoto key={id} photo={photo} placed={placed} board={board} photos={photos} />
            ) : null;
          })}
        </ul>
      )}
    </Dialog>
  );
}
