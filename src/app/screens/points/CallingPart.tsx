import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { useLocation } from 'wouter';
import type { CountedPhoto } from '../../../core/point-grid/countedPhoto.ts';
import { pointsText } from '../../../core/text/pointsScreen.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { Page } from '../../components/Page.tsx';
import { CallingView } from './CallingView.tsx';
import styles from './PointsScreen.module.css';
import { usePoints } from './pointsContext.tsx';
import { scaleOf } from './scaleOf.ts';
import { usePictures } from './usePictures.ts';

const text = pointsText.calling;

/** Calling the points of a rating date, photo after photo, in the observer's own order. */
export function CallingPart() {
  const { points, date, observer: typed } = usePoints();
  const observer = typed.trim();
  const [, navigate] = useLocation();
  const [counted, setCounted] = useState<readonly CountedPhoto[] | null>(null);
  const [photoId, setPhotoId] = useState<string | null>(null);
  const here = useRef(false);

  /** Reads the count anew and goes to the first photo after this one that has points left. */
  const goOn = useCallback(
    async (after: string | null) => {
      await points.hold(false);
      const next = await points.counted(date);
      if (!here.current) return;
      await points.hold(true);
      const queue = points.toCall(next, observer);
      const at = queue.findIndex(({ photo }) => photo.photoId === after) + 1;
      const inTurn = [...queue.slice(at), ...queue.slice(0, at)];
      setCounted(next);
      setPhotoId(inTurn.find(({ left }) => left > 0)?.photo.photoId ?? null);
    },
    [points, date, observer],
  );
  useEffect(() => {
    here.current = true;
    if (observer === '') navigate('/points', { replace: true });
    else void goOn(null).catch(console.error);
    return () => {
      here.current = false;
      void points.hold(false).catch(console.error);
    };
  }, [points, observer, goOn, navigate]);

  if (counted === null) return null;
  const leave = () => navigate('/points');
  const current = counted.find((photo) => photo.photoId === photoId);
  if (!current) {
    return (
      <Page title={pointsText.title}>
        <p className={blocks.lead}>{counted.length > 0 ? text.allDone : text.nothing}</p>
        {counted.length > 0 && <p className={styles.soft}>{text.allDoneHint}</p>}
        <div className={blocks.row}>
          {counted.length > 0 && (
            <Button look="main" onClick={() => navigate('/points/results')}>
              {text.toResults}
            </Button>
          )}
          <Button onClick={leave}>{text.leave}</Button>
        </div>
      </Page>
    );
  }
  return (
    <OnePhoto
      key={current.photoId}
      photo={current}
      counted={counted}
      observer={observer}
      onNext={() => void goOn(current.photoId).catch(console.error)}
      onLeave={leave}
    />
  );
}

function OnePhoto(props: {
  readonly photo: CountedPhoto;
  readonly counted: readonly CountedPhoto[];
  readonly observer: string;
  readonly onNext: () => void;
  readonly onLeave: () => void;
}) {
  const { photo, counted, observer, onNext, onLeave } = props;
  const { points, state } = usePoints();
  const calling = useMemo(() => points.call(photo, observer), [points, photo, observer]);
  const queue = useMemo(() => points.toCall(counted, observer), [points, counted, observer]);
  const at = queue.findIndex((one) => one.photo.photoId === photo.photoId);
  const others = [...queue.slice(at + 1), ...queue.slice(0, at)].filter(({ left }) => left > 0);
  const picture = usePictures(points, photo.photoId, others[0]?.photo.photoId ?? null);
  // what cannot be stored is said below the picture, and would be lost with this sitting
  const onceStored = (go: () => void) => async () => {
    await calling.store();
    if (calling.unstored.get() === 0) go();
  };
  const next = onceStored(onNext);
  const leave = onceStored(onLeave);
  return (
    <CallingView
      calling={calling}
      picture={picture}
      millimetresPerPixel={scaleOf(photo)}
      classes={state.classes}
      gapRule={state.gapRule}
      place={[at + 1, queue.length]}
      pausedHint={text.pausedHint}
      onLeave={leave}
      failed={
        <Button look="main" onClick={others.length > 0 ? next : leave}>
          {others.length > 0 ? text.skip : text.leave}
        </Button>
      }
      done={
        <>
          <strong>{text.photoDone}</strong>
          {others.length > 0 && <p>{text.photoDoneHint(others.length)}</p>}
          <div className={blocks.row}>
            <Button look="main" large autoFocus onClick={next}>
              {others.length > 0 ? text.next : text.finish}
            </Button>
            <Button large onClick={() => calling.act({ type: 'back' })}>
              {text.back}
            </Button>
          </div>
        </>
      }
    />
  );
}
