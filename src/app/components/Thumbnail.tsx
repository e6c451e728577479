import { useRef } from 'react';
import styles from './Thumbnail.module.css';
import { useNear } from './useNear.ts';
import { useThumbnail } from './useThumbnail.ts';

interface ThumbnailProps {
  readonly photoId: string;
  /** Changes when there may be a thumbnail that was not there before. */
  readonly version: string;
}

/** The small picture of a photo, read from the store while it is near the window, so that thousands take no room. Its words stand beside it. */
export function Thumbnail({ photoId, version }: ThumbnailProps) {
  const place = useRef<HTMLDivElement>(null);
  const near = useNear(place);
  return (
    <div ref={place} className={styles.place}>
      {near && <Picture photoId={photoId} version={version} />}
    </div>
  );
}

function Picture({ photoId, version }: ThumbnailProps) {
  const url = useThumbnail(photoId, version);
  return url && <img src={url} alt="" draggable={false} decoding="async" />;
}
