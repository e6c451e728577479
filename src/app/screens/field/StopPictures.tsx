import { fieldText } from '../../../core/text/field.ts';
import { useThumbnail } from '../../components/useThumbnail.ts';
import type { PhotographedStop } from '../../session/fieldDay.ts';
import styles from './StopPictures.module.css';

interface StopPicturesProps {
  readonly stop: PhotographedStop;
  /** Address of the photo just taken; null where its thumbnail has to do. */
  readonly preview: string | null;
}

/** The photo of this stop, and faint beside it the one of the date before, to place the frame by. */
export function StopPictures({ stop, preview }: StopPicturesProps) {
  const { photo, verdict, before, plot } = stop;
  if (photo === null && before === null) return <p className={styles.none}>{fieldText.noGuide}</p>;
  return (
    <div className={styles.pictures}>
      {photo !== null && (
        <figure>
          <Picture
            key={photo}
            photo={photo}
            version={verdict ?? ''}
            preview={preview}
            alt={fieldText.photoOf(plot.plot)}
          />
        </figure>
      )}
      {before && (
        <figure className={styles.guide}>
          <Picture
            key={before.photo}
            photo={before.photo}
            version=""
            preview={null}
            alt={fieldText.guideAlt(plot.plot, before.ratingDate)}
          />
          <figcaption>{fieldText.guide(before.ratingDate)}</figcaption>
        </figure>
      )}
    </div>
  );
}

interface PictureProps {
  readonly photo: string;
  readonly version: string;
  readonly preview: string | null;
  readonly alt: string;
}

function Picture({ photo, version, preview, alt }: PictureProps) {
  const thumbnail = useThumbnail(photo, version);
  const source = preview ?? thumbnail;
  return source ? <img src={source} alt={alt} decoding="async" /> : <div className={styles.empty} />;
}
