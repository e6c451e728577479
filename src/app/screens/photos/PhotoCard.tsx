import { memo } from 'react';
import { Link } from 'wouter';
import { coverByGroup } from '../../../core/cover/coverByGroup.ts';
import { app } from '../../../core/text/app.ts';
import { area } from '../../../core/text/area.ts';
import { formatPercent } from '../../../core/text/format.ts';
import { CoverBar } from '../../components/CoverBar.tsx';
import { Icon } from '../../components/Icon.tsx';
import { lookReasons } from '../../components/needsLook.ts';
import type { PhotoOrder } from '../../components/photoOrder.ts';
import { dateWords, plotWords, workWords } from '../../components/photoWords.ts';
import { Thumbnail } from '../../components/Thumbnail.tsx';
import type { PhotoSummary } from '../../session/session.ts';
import { FrameOnThumbnail } from './FrameOnThumbnail.tsx';
import styles from './PhotoCard.module.css';

interface PhotoCardProps {
  readonly photo: PhotoSummary;
  readonly order: PhotoOrder;
  readonly selected: boolean;
  readonly onToggle: (id: string, range: boolean) => void;
}

/** A photo small, with its cover beneath it. */
export const PhotoCard = memo(
  function PhotoCard({ photo, order, selected, onToggle }: PhotoCardProps) {
    const { id, name, plot, ratingDate, replaced, figure, work } = photo;
    const words = workWords(photo);
    const [reason] = lookReasons(photo);
    return (
      <li className={selected ? `${styles.card} ${styles.selected}` : styles.card}>
        <Link href={`/cover/${id}`} className={styles.link} aria-label={app.photos.open(name)}>
          <Thumbnail photoId={id} version={String(figure !== null || work === 'failed')} />
          <FrameOnThumbnail photo={photo} />
        </Link>
        <label className={styles.check}>
          <input
            type="checkbox"
            checked={selected}
            aria-label={app.photos.select(name)}
            onChange={(event) =>
              onToggle(id, event.nativeEvent instanceof MouseEvent && event.nativeEvent.shiftKey)
            }
          />
        </label>
        {figure ? (
          <CoverBar
            thin
            classes={figure.settings.classes}
            coverFraction={figure.cover.map(({ coverFraction }) => coverFraction)}
          />
        ) : (
          <div className={styles.noBar} />
        )}
        <div className={styles.words}>
          <span className={styles.title}>
            {replaced
              ? app.photos.replaced(replaced.plot)
              : order === 'date'
                ? plotWords(plot)
                : dateWords(ratingDate, 'short')}
            {figure && figure.flags.length > 0 && (
              <span className={styles.flag} title={app.photos.flagged(figure.flags.length)}>
                <Icon name="trouble" size={16} />
                <span className="visually-hidden">{app.photos.flagged(figure.flags.length)}</span>
              </span>
            )}
          </span>
          {words ? (
            <span className={work === 'failed' ? styles.failed : styles.work}>{words}</span>
          ) : (
            figure && (
              <span className={styles.figures}>
                {coverByGroup(figure.settings.classes, figure.cover).map(
                  (share) =>
                    share && (
                      <span key={share.group}>
                        <b aria-hidden="true">{share.lead.key}</b> {formatPercent(share.coverFraction)}
                      </span>
                    ),
                )}
              </span>
            )
          )}
          {reason && reason !== 'failed' && (
            <span className={reason === 'retake' ? `${styles.look} ${styles.failed}` : styles.look}>
              {area.look.reasons[reason]}
            </span>
          )}
        </div>
      </li>
    );
  },
  (before, after) =>
    before.photo === after.photo && before.order === after.order && before.selected === after.selected,
);
