import { useMemo } from 'react';
import { teach } from '../../../../core/text/teach.ts';
import type { CoverClass } from '../../../../core/trial/coverClass.ts';
import { orderPhotos } from '../../../components/photoOrder.ts';
import { Segments } from '../../../components/Segments.tsx';
import { oneOf, usePreference } from '../../../components/usePreference.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import type { TeachingState } from '../../../session/teaching.ts';
import styles from './TeachStrip.module.css';
import { TeachTile } from './TeachTile.tsx';

interface TeachStripProps {
  readonly photos: readonly PhotoSummary[];
  readonly state: TeachingState;
  readonly classes: readonly CoverClass[];
  readonly nameOf: (classId: string) => string;
  readonly onOpen: (photoId: string) => void;
}

/** All photos of the date, following what is painted; the doubtful ones first if that is wanted. */
export function TeachStrip({ photos, state, classes, nameOf, onOpen }: TeachStripProps) {
  const [order, setOrder] = usePreference('teach.order', 'plot', oneOf('plot', 'doubt'));
  const { strip, strokes, photoId } = state;
  const inOrder = useMemo(() => {
    const byPlot = orderPhotos(photos, 'plot');
    const doubtOf = ({ id }: PhotoSummary) => strip.get(id)?.doubt ?? 0;
    return order === 'plot' ? byPlot : byPlot.toSorted((a, b) => doubtOf(b) - doubtOf(a));
  }, [photos, order, strip]);
  const doubtful = photos.filter(({ id }) => (strip.get(id)?.reasons.length ?? 0) > 0).length;
  return (
    <section className={styles.strip} aria-label={teach.strip(photos.length)}>
      <header>
        <h2>
          {teach.strip(photos.length)}
          {doubtful > 0 && <span> · {teach.doubtful(doubtful)}</span>}
        </h2>
        <Segments
          label={teach.stripOrder}
          value={order}
          choices={[
            ['plot', teach.byPlot],
            ['doubt', teach.byDoubt],
          ]}
          onChange={setOrder}
        />
      </header>
      <ul>
        {inOrder.map((photo) => (
          <li key={photo.id}>
            <TeachTile
              photo={photo}
              classes={classes}
              applied={strip.get(photo.id)}
              strokes={strokes.get(photo.id)?.length ?? 0}
              isOpen={photo.id === photoId}
              nameOf={nameOf}
              onOpen={() => onOpen(photo.id)}
            />
          </li>
        ))}
      </ul>
    </section>
  );
}
