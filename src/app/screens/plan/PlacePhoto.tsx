import { useState } from 'react';
import { formatDay } from '../../../core/text/format.ts';
import { planText } from '../../../core/text/plan.ts';
import { assignmentReasonText, listed } from '../../../core/text/trial.ts';
import type { AssignmentReason } from '../../../core/trial/assignPhotos.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { FormField } from '../../components/FormField.tsx';
import { Thumbnail } from '../../components/Thumbnail.tsx';
import type { PlacedTrialPhoto, TrialPhotosState } from '../../session/placePhotos.ts';
import type { PhotoSummary } from '../../session/session.ts';
import styles from './PhotosPart.module.css';
import { usePlan } from './planContext.tsx';

const text = planText.board;

interface PlacePhotoProps {
  readonly photo: PhotoSummary;
  readonly placed: PlacedTrialPhoto;
  readonly board: TrialPhotosState;
  /** All photos of the project, by id. */
  readonly photos: ReadonlyMap<string, PhotoSummary>;
}

/** A photo with the reasons for its place, and the way to say where it belongs. */
export function PlacePhoto({ photo, placed, board, photos }: PlacePhotoProps) {
  const { session, who } = usePlan();
  const [plot, setPlot] = useState(placed.plot ?? '');
  const [place, setPlace] = useState(String(placed.place ?? 1));
  const [date, setDate] = useState(placed.ratingDate ?? '');
  const { placesPerPlot, plots, ratingDates } = board;
  const others = othersInCell(placed, board).map((id) => photos.get(id)?.name ?? id);
  const dates = [...new Set([...ratingDates, ...(placed.ratingDate ? [placed.ratingDate] : [])])];
  const keep = () =>
    session.place(
      [photo.id],
      { plot, ratingDate: date, place: placesPerPlot === 1 ? null : Number(place) },
      { who, why: planText.signature.placed },
    );
  const places = Array.from({ length: placesPerPlot }, (_, index) => String(index + 1));
  return (
    <li className={styles.photo}>
      <Thumbnail photoId={photo.id} version={photo.figure?.id ?? ''} />
      <div>
        <strong>{photo.name}</strong>
        <ul className={styles.reasons}>
          {others.length > 0 && <li>{text.alsoHere(listed(others))}</li>}
          {placed.byPerson && <li>{text.byPerson}</li>}
          {placed.reasons.map((reason) => {
            const words = assignmentReasonText(withNames(reason, photos));
            return <li key={words}>{words}</li>;
          })}
        </ul>
        <div className={blocks.fields}>
          <FormField
            label={text.plotOf(photo.name)}
            value={plot}
            onChange={setPlot}
            choices={[['', planText.choose], ...plots.map((name) => [name, name] as const)]}
          />
          {placesPerPlot > 1 && (
            <FormField
              label={text.placeOf(photo.name)}
              value={place}
              onChange={setPlace}
              choices={places.map((name) => [name, name] as const)}
            />
          )}
          <FormField
            label={text.dateOf(photo.name)}
            value={date}
            onChange={setDate}
            choices={[['', planText.choose], ...dates.map((day) => [day, formatDay(day, 'short')] as const)]}
          />
        </div>
        <Button
          className={blocks.fit}
          disabled={plot === '' || date === ''}
          aria-label={text.belongsHereOf(photo.name)}
          onClick={() => void keep()}
        >
          {text.belongsHere}
        </Button>
      </div>
    </li>
  );
}

/** The other photos of the same plot, place and date, where they are not known to be subsamples. */
function othersInCell({ photo }: PlacedTrialPhoto, { cells }: TrialPhotosState): readonly string[] {
  const cell = cells.find(({ state, photos }) => state === 'double' && photos.includes(photo));
  return cell?.photos.filter((id) => id !== photo) ?? [];
}

/** Reasons name photos by their ids; a person knows them by their file names. */
function withNames(reason: AssignmentReason, photos: ReadonlyMap<string, PhotoSummary>): AssignmentReason {
  const nameOf = (id: string) => photos.get(id)?.name ?? id;
  if (reason.code === 'same-file') return { ...reason, as: nameOf(reason.as) };
  return reason.code === 'same-place-and-date' ? { ...reason, as: reason.as.map(nameOf) } : reason;
}
