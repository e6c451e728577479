import { Link } from 'wouter';
import { classesByGroup, coverByGroup } from '../../../core/cover/coverByGroup.ts';
import { app } from '../../../core/text/app.ts';
import { area } from '../../../core/text/area.ts';
import { formatPercent } from '../../../core/text/format.ts';
import { ClassSwatch } from '../../components/ClassSwatch.tsx';
import { lookReasons } from '../../components/needsLook.ts';
import { dateWords, workWords } from '../../components/photoWords.ts';
import type { PhotoSummary } from '../../session/session.ts';
import styles from './PhotoTable.module.css';
import type { Selection } from './useSelection.ts';

interface PhotoTableProps {
  readonly photos: readonly PhotoSummary[];
  readonly selection: Selection<PhotoSummary>;
}

/** What is going on with a photo, and what of it needs a look. */
function stateWords(photo: PhotoSummary): string {
  const flags = photo.figure?.flags.length ?? 0;
  const going = workWords(photo) ?? (flags > 0 ? app.photos.flagged(flags) : null);
  const looks = lookReasons(photo).flatMap((one) => (one === 'failed' ? [] : [area.look.reasons[one]]));
  return [going, ...looks].filter(Boolean).join(' · ');
}

/** The photos as rows, for reading figures down a column. */
export function PhotoTable({ photos, selection }: PhotoTableProps) {
  // classes are the trial's, and so the same for all photos
  const classes = photos[0]?.classes ?? [];
  const groups = classesByGroup(classes);
  const ids = photos.map(({ id }) => id);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than the screen is scrolled with the keyboard
    <section className={styles.scroller} tabIndex={0} aria-label={app.photos.table.caption}>
      <table className={styles.table}>
        <caption className="visually-hidden">{app.photos.table.caption}</caption>
        <thead>
          <tr>
            <th scope="col">
              <label className={styles.check}>
                <input
                  type="checkbox"
                  checked={ids.length > 0 && ids.every((id) => selection.has(id))}
                  onChange={() => selection.toggleAll(ids)}
                  aria-label={app.photos.selectAll}
                />
              </label>
            </th>
            <th scope="col">{app.photos.plotWord}</th>
            <th scope="col">{app.photos.dateWord}</th>
            {groups.map(({ group, lead, members }) => (
              <th scope="col" key={group} className={styles.number}>
                <span className={styles.classHead}>
                  {members.map((coverClass) => (
                    <ClassSwatch
                      key={coverClass.id}
                      coverClass={coverClass}
                      index={classes.indexOf(coverClass)}
                      small
                    />
                  ))}
                  <span className="visually-hidden">{app.photos.table.percentOf(lead.name)}</span>
                  <span aria-hidden="true">%</span>
                </span>
              </th>
            ))}
            <th scope="col">{app.photos.table.state}</th>
            <th scope="col">{app.photos.table.photo}</th>
            <th scope="col">{app.photos.table.origin}</th>
          </tr>
        </thead>
        <tbody>
          {photos.map((photo) => (
            <tr key={photo.id} data-selected={selection.has(photo.id)}>
              <td>
                <label className={styles.check}>
                  <input
                    type="checkbox"
                    checked={selection.has(photo.id)}
                    aria-label={app.photos.select(photo.name)}
                    onChange={(event) =>
                      selection.toggle(
                        photo.id,
                        event.nativeEvent instanceof MouseEvent && event.nativeEvent.shiftKey,
                      )
                    }
                  />
                </label>
              </td>
              <th scope="row">
                <Link href={`/cover/${photo.id}`}>{photo.plot ?? app.photos.noPlot}</Link>
              </th>
              <td>{dateWords(photo.ratingDate, 'short')}</td>
              {coverByGroup(classes, photo.figure?.cover ?? []).map((share, index) => (
                <td key={groups[index]!.group} className={styles.number}>
                  {share ? formatPercent(share.coverFraction) : '–'}
                </td>
              ))}
              <td className={photo.work === 'failed' ? styles.failed : styles.soft}>{stateWords(photo)}</td>
              <td className={styles.file}>{photo.name}</td>
              <td className={styles.soft}>{photo.namedBy ? app.photos.namedBy[photo.namedBy] : '–'}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
