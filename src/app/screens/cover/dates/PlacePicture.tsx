import { app } from '../../../../core/text/app.ts';
import { area as words } from '../../../../core/text/area.ts';
import { StraightView } from '../../../canvas/StraightView.tsx';
import { dateWords } from '../../../components/photoWords.ts';
import type { FixedPlaces } from '../../../session/fixedPlaces.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import type { Overlay } from '../useOverlay.ts';
import { usePhotoPicture } from '../usePhotoPicture.ts';
import styles from './DatesScreen.module.css';
import { usePlaceMask } from './usePlaceMask.ts';

interface PlacePictureProps {
  readonly places: FixedPlaces;
  readonly photo: PhotoSummary;
  readonly quarters: number;
  readonly overlay: Overlay;
}

/** One date of a place, seen from straight above. */
export function PlacePicture({ places, photo, quarters, overlay }: PlacePictureProps) {
  const picture = usePhotoPicture(photo.id);
  const mask = usePlaceMask(places, photo);
  return (
    <figure className={styles.picture}>
      <figcaption>{dateWords(photo.ratingDate)}</figcaption>
      <div className={styles.square}>
        {picture.state === 'ready' && photo.frame && (
          <StraightView
            label={words.straight.stage(photo.name)}
            photo={picture.levels}
            frame={photo.frame}
            quarters={quarters}
            mask={mask}
            maskStyle={overlay.style}
            maskOpacity={overlay.on ? overlay.opacity : 0}
          />
        )}
        {picture.state === 'failed' && <p>{app.cover.cannotShow(photo.name)}</p>}
      </div>
    </figure>
  );
}
