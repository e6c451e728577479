import { planText } from '../../../core/text/plan.ts';
import { heldPhotos, type TrialPhotosState } from '../../session/placePhotos.ts';
import type { PhotoSummary } from '../../session/session.ts';
import styles from './PhotosPart.module.css';
import { PlacePhoto } from './PlacePhoto.tsx';

const text = planText.board;

interface HeldPhotosProps {
  readonly board: TrialPhotosState;
  readonly photos: ReadonlyMap<string, PhotoSummary>;
}

/** Photos that wait for a person: doubtful, double, or without a cell. */
export function HeldPhotos({ board, photos }: HeldPhotosProps) {
  const held = heldPhotos(board);
  if (held.size === 0) return null;
  return (
    <section className={styles.held} aria-label={text.held(held.size)}>
      <h2>{text.held(held.size)}</h2>
      <p>{text.heldHint}</p>
      <ul className={styles.held}>
        {[...held].map((id) => {
          const [photo, placed] = [photos.get(id), board.photos.get(id)];
          return photo && placed ? (
            <PlacePhoto
              key={`${id} ${placed.plot} ${placed.ratingDate}`}
              photo={photo}
              placed={placed}
              board={board}
              photos={photos}
            />
          ) : null;
        })}
      </ul>
    </section>
  );
}
