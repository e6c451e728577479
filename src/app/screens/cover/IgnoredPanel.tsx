import { area as words } from '../../../core/text/area.ts';
import { Button } from '../../components/Button.tsx';
import { Icon } from '../../components/Icon.tsx';
import styles from './FramePanel.module.css';
import type { Marking } from './useMarking.ts';

/** Ground inside the measured area that is no turf, and a free outline: drawn on the photo, moved, taken away. */
export function IgnoredPanel({ marking }: { marking: Marking }) {
  const { outlines, drawing, draft, chosenId } = marking;
  const areas = outlines.filter(({ kind }) => kind !== 'card');
  const ignored = areas.filter(({ kind }) => kind === 'ignored');
  const isDrawing = drawing === 'ignored' || drawing === 'outline';
  return (
    <section
      className={isDrawing || chosenId ? `${styles.panel} ${styles.first}` : styles.panel}
      aria-label={words.ignored}
    >
      <header>
        <div>
          <h2>{words.ignored}</h2>
          <p className={styles.soft}>
            {ignored.length > 0 ? words.ignoredCount(ignored.length) : words.ignoredNone}
          </p>
        </div>
        {!isDrawing && <Button onClick={() => marking.begin('ignored')}>{words.draw}</Button>}
      </header>
      {isDrawing && (
        <>
          <p>
            {drawing === 'outline' ? words.outlineHint : words.drawHint}{' '}
            <span className={styles.keys}>{words.drawKeys}</span>
          </p>
          <p className={styles.soft} role="status">
            {words.pointsSoFar(draft.length)}
          </p>
          <div className={styles.actions}>
            <Button look="main" disabled={draft.length < 3} onClick={marking.close}>
              {words.close}
            </Button>
            <Button onClick={marking.addSquare}>{words.addSquare}</Button>
            <Button onClick={marking.cancel}>{words.cancel}</Button>
          </div>
        </>
      )}
      {areas.length > 0 && (
        <ul className={styles.list}>
          {areas.map(({ id, name }) => (
            <li key={id}>
              <span className={styles.itemName}>{name}</span>
              <Button
                look="quiet"
                aria-pressed={chosenId === id}
                aria-label={words.chosen(name)}
                onClick={() => marking.choose(chosenId === id ? null : id)}
              >
                <Icon name="move" />
              </Button>
              <Button look="quiet" aria-label={words.removeNamed(name)} onClick={() => marking.remove(id)}>
                <Icon name="close" />
              </Button>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
