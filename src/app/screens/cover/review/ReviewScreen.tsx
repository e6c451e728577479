import { useCallback, useEffect, useMemo, useState } from 'react';
import { Link, useLocation } from 'wouter';
import { screenPoint } from '../../../../core/geometry/points.ts';
import type { LabelMask } from '../../../../core/raster/labelMask.ts';
import { app } from '../../../../core/text/app.ts';
import { review } from '../../../../core/text/review.ts';
import { PhotoStage } from '../../../canvas/PhotoStage.tsx';
import { zoomAt } from '../../../canvas/view.ts';
import type { Command, Shortcut } from '../../../commands/command.ts';
import { useCommands } from '../../../commands/registry.tsx';
import { Button } from '../../../components/Button.tsx';
import { CommandButton } from '../../../components/CommandButton.tsx';
import { CoverBar } from '../../../components/CoverBar.tsx';
import { noteOpenPhoto, photoToOpen } from '../../../components/lastPhoto.ts';
import { usePreference } from '../../../components/usePreference.ts';
import { isLookedAt, openReviewing, type ReviewedPhoto, type Reviewing } from '../../../session/reviewing.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import { useObservable, usePart, usePhotos } from '../../../session/useSession.tsx';
import coverStyles from '../CoverScreen.module.css';
import { PictureState } from '../PictureState.tsx';
import { useOverlay } from '../useOverlay.ts';
import { usePhotoStage } from '../usePhotoStage.ts';
import { ReviewPanel } from './ReviewPanel.tsx';
import styles from './ReviewScreen.module.css';

const ZOOM_STEP = 1.5;
const isText = (value: unknown): value is string => typeof value === 'string';

/** Looking through the masks of a rating date, the least trusted first. */
export function ReviewScreen({ params: { date } }: { params: Record<string, string | undefined> }) {
  const photos = usePhotos();
  const [, navigate] = useLocation();
  const dates = useMemo(
    () => [...new Set(photos.flatMap(({ ratingDate }) => ratingDate ?? []))].sort(),
    [photos],
  );
  const lastOpen = photos.find(({ id }) => id === photoToOpen(photos))?.ratingDate;
  const wanted = [date, lastOpen, dates[0]].find(
    (one) => one !== undefined && one !== null && dates.includes(one),
  );
  if (!wanted) {
    return (
      <div className={coverStyles.gone}>
        <p>{review.nothing}</p>
        <Link href="/photos">{app.cover.back}</Link>
      </div>
    );
  }
  return (
    <ReviewOfDate key={wanted} date={wanted} dates={dates} onDate={(next) => navigate(`/review/${next}`)} />
  );
}

interface ReviewOfDateProps {
  readonly date: string;
  readonly dates: readonly string[];
  readonly onDate: (date: string) => void;
}

function ReviewOfDate(props: ReviewOfDateProps) {
  const reviewing = usePart(useMemo(() => openReviewing(props.date), [props.date]));
  return reviewing ? (
    <Review {...props} reviewing={reviewing} />
  ) : (
    <p className={coverStyles.gone} role="status">
      {review.opening}
    </p>
  );
}

function Review({ reviewing, date, dates, onDate }: ReviewOfDateProps & { reviewing: Reviewing }) {
  const state = useObservable(reviewing.state);
  const { queue } = state;
  const lastId = photoToOpen(queue.map(({ photo }) => photo));
  const [openId, setOpenId] = useState<string | null>(() => {
    // back from correcting: the photo that was open; else the first nobody looked at
    const back = queue.find(({ photo }) => photo.id === lastId);
    return (
      (back && back.photo.ratingDate === date && lastWasCorrected(back) ? back : firstOpen(queue))?.photo
        .id ?? null
    );
  });
  const at = Math.max(
    0,
    queue.findIndex(({ photo }) => photo.id === openId),
  );
  const open = queue[at] ?? null;
  const [by, setBy] = usePreference('plan.signature', '', isText);
  useEffect(() => {
    reviewing.by = by.trim();
  }, [reviewing, by]);
  return open ? (
    <ReviewPhoto
      key={open.photo.id}
      {...{ reviewing, state, open, at, date, dates, onDate, by }}
      onBy={setBy}
      onOpen={setOpenId}
    />
  ) : (
    <p className={coverStyles.gone}>{review.unmeasured(state.unmeasured)}</p>
  );
}

/** Corrected, and not looked at as it is now. */
const lastWasCorrected = (one: ReviewedPhoto) => one.figure.method === 'corrected' && !isLookedAt(one);

const firstOpen = (queue: readonly ReviewedPhoto[]) =>
  queue.find(({ review: done, outdated }) => done === null || outdated) ?? queue[0];

interface ReviewPhotoProps extends ReviewOfDateProps {
  readonly reviewing: Reviewing;
  readonly state: ReturnType<Reviewing['state']['get']>;
  readonly open: ReviewedPhoto;
  /** Place in the queue. */
  readonly at: number;
  readonly by: string;
  readonly onBy: (name: string) => void;
  readonly onOpen: (photoId: string) => void;
}

function ReviewPhoto(props: ReviewPhotoProps) {
  const { reviewing, state, open, at, onOpen } = props;
  const { queue } = state;
  const { photo, figure } = open;
  const { id, name } = photo;
  const [, navigate] = useLocation();
  useEffect(() => noteOpenPhoto(id), [id]);
  const { stage, surface, picture, levels, size, viewing } = usePhotoStage(photo);
  const mask = useCountingMask(reviewing, photo, figure.id);
  const { classes } = figure.settings;
  const overlay = useOverlay(classes);
  const shares = figure.cover.map(({ coverFraction }) => coverFraction);

  const goTo = useCallback(
    (place: number) => {
      const next = queue[place];
      if (next) onOpen(next.photo.id);
    },
    [queue, onOpen],
  );
  const judge = useCallback(
    (verdict: 'accepted' | 'skipped') => {
      // the next that waits, in the order of the queue
      const rest = [...queue.slice(at + 1), ...queue.slice(0, at)];
      const next = rest.find((one) => one.review === null || one.outdated) ?? queue[at + 1];
      // on at once: the next key is for the next photo
      void reviewing.judge(open, verdict);
      if (next) onOpen(next.photo.id);
    },
    [queue, at, reviewing, open, onOpen],
  );
  const commands = useMemo(() => {
    const middle = screenPoint((surface?.width ?? 0) / 2, (surface?.height ?? 0) / 2);
    const command = (
      commandId: string,
      label: string,
      shortcut: Shortcut,
      run: () => void,
      isEnabled = true,
      isOn?: boolean,
    ): Command => ({
      id: commandId,
      label,
      shortcut,
      run,
      isEnabled: () => isEnabled,
      ...(isOn !== undefined && { isOn }),
    });
    const zoom = (factor: number) => () => viewing.change((view) => zoomAt(view, middle, factor));
    return {
      accept: command('review-accept', review.accept, { key: 'a' }, () => judge('accepted')),
      correct: command('review-correct', review.correct, { key: 'c' }, () => navigate(`/cover/${id}/review`)),
      skip: command('review-skip', review.skip, { key: 's' }, () => judge('skipped')),
      withdraw: command(
        'review-withdraw',
        review.withdraw,
        { key: 'z', mod: true },
        () => void reviewing.withdraw(open),
        open.review !== null,
      ),
      previous: command('review-previous', review.previous, { key: 'p' }, () => goTo(at - 1), at > 0),
      next: command('review-next', review.next, { key: 'n' }, () => goTo(at + 1), at + 1 < queue.length),
      zoomIn: command('zoom-in', app.commands.zoomIn, { key: '+' }, zoom(ZOOM_STEP)),
      zoomOut: command('zoom-out', app.commands.zoomOut, { key: '-' }, zoom(1 / ZOOM_STEP), !viewing.fitted),
      fit: command('fit', app.commands.fit, { key: '0' }, viewing.fit, !viewing.fitted),
      overlay: command(
        'overlay',
        app.commands.overlay,
        { key: 'o' },
        () => overlay.setOn(!overlay.on),
        true,
        overlay.on,
      ),
    };
  }, [surface, viewing, judge, navigate, id, reviewing, open, goTo, at, queue.length, overlay]);
  useCommands(useMemo(() => Object.values(commands), [commands]));
  return (
    <div className={coverStyles.screen}>
      <div className={coverStyles.left}>
        <div className={coverStyles.stage} style={{ aspectRatio: `${size.width} / ${size.height}` }}>
          <PhotoStage
            stage={stage}
            surface={surface}
            label={review.stage(name)}
            photo={levels}
            view={viewing.view}
            fitted={viewing.fitted}
            changeView={viewing.change}
            mask={mask}
            maskStyle={overlay.style}
            maskOpacity={overlay.on ? overlay.opacity : 0}
            onPoint={ignore}
          >
            <PictureState picture={picture} name={name} />
          </PhotoStage>
        </div>
        <div className={coverStyles.bar}>
          <CoverBar classes={classes} coverFraction={shares} />
        </div>
        <div className={coverStyles.tools} role="toolbar" aria-label={review.tools}>
          <span className={styles.verdicts}>
            <Button look="main" onClick={commands.accept.run} aria-keyshortcuts="A">
              {review.accept}
            </Button>
            <Button onClick={commands.correct.run} aria-keyshortcuts="C">
              {review.correct}
            </Button>
            <Button onClick={commands.skip.run} aria-keyshortcuts="S">
              {review.skip}
            </Button>
          </span>
          <span className={coverStyles.spring} />
          <CommandButton command={commands.previous} icon="previous" />
          <CommandButton command={commands.next} icon="next" />
          <span className={coverStyles.zoom}>
            <CommandButton command={commands.zoomOut} icon="minus" />
            <CommandButton command={commands.zoomIn} icon="plus" />
          </span>
          <span className={styles.fit}>
            <CommandButton command={commands.fit} icon="fit" />
          </span>
          <CommandButton command={commands.overlay} icon="layers" />
        </div>
      </div>
      <ReviewPanel {...props} withdraw={commands.withdraw} />
    </div>
  );
}

const ignore = () => {};

/** The mask that counts for a photo now; null while there is none. */
function useCountingMask(reviewing: Reviewing, { id }: PhotoSummary, figureId: string): LabelMask | null {
  const [mask, setMask] = useState<LabelMask | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another figure is another mask
  useEffect(() => {
    let left = false;
    reviewing.mask(id).then(
      (next) => {
        if (!left) setMask(next);
      },
      (error) => console.error(`no mask of photo ${id}`, error),
    );
    return () => {
      left = true;
    };
  }, [reviewing, id, figureId]);
  return mask;
}
