import { useMemo } from 'react';
import { teach } from '../../../../core/text/teach.ts';
import type { CoverClass } from '../../../../core/trial/coverClass.ts';
import { orderPhotos } from '../../../components/photoOrder.ts';
import { plotWords } from '../../../components/photoWords.ts';
import { Segments } from '../../../components/Segments.tsx';
import { oneOf, usePreference } from '../../../components/usePreference.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import type { TeachingState } from '../../../session/teaching.ts';
import styles from './TeachStrip.module.css';
import { TeachTile } from './TeachTile.tsx';
import { useProposal } from './useProposal.ts';
import type { TrialPlot } from './useTrialPlots.ts';

interface TeachStripProps {
  readonly photos: readonly PhotoSummary[];
  /** Of the trial; null without one. */
  readonly plots: ReadonlyMap<string, TrialPlot> | null;
  readonly state: TeachingState;
  readonly classes: readonly CoverClass[];
  readonly nameOf: (classId: string) => string;
  readonly onOpen: (photoId: string) => void;
}

/** All photos of the date, following what is painted; the doubtful ones first if that is wanted. */
export function TeachStrip({ photos, plots, state, classes, nameOf, onOpen }: TeachStripProps) {
  const [order, setOrder] = usePreference('teach.order', 'plot', oneOf('plot', 'doubt'));
  const { strip, strokes, photoId } = state;
  const inOrder = useMemo(() => {
    const byPlot = orderPhotos(photos, 'plot');
    const doubtOf = ({ id }: PhotoSummary) => strip.get(id)?.doubt ?? 0;
    return order === 'plot' ? byPlot : byPlot.toSorted((a, b) => doubtOf(b) - doubtOf(a));
  }, [photos, order, strip]);
  const proposal = useProposal(plots, photos, state);
  const toPaint = new Set(proposal?.photoIds.filter((id) => !strokes.has(id)));
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
      {proposal && toPaint.size > 0 && (
        <p className={styles.proposal}>
          {teach.startWith(
            photos.flatMap(({ id, plot }) => (toPaint.has(id) ? [plotWords(plot)] : [])),
            proposal,
          )}
        </p>
      )}
      <ul>
        {inOrder.map((photo) => (
          <li key={photo.id}>
            <TeachTile
              photo={photo}
              classes={classes}
              applied={strip.get(photo.id)}
              strokes={strokes.get(photo.id)?.length ?? 0}
              isOpen={photo.id === photoId}
              isProposed={toPaint.has(photo.id)}
              nameOf={nameOf}
              onOpen={() => onOpen(photo.id)}
            />
          </li>
        ))}
      </ul>
    </section>
  );
}
