import { useId } from 'react';
import { archiveText } from '../../../core/text/archive.ts';
import type { MergeConflict, Side } from '../../../storage/archive/mergeTypes.ts';
import { Button } from '../../components/Button.tsx';
import styles from './FilesPanel.module.css';

const text = archiveText.open;

interface ConflictsProps {
  readonly conflicts: readonly MergeConflict[];
  readonly decisions: ReadonlyMap<string, Side>;
  readonly onDecide: (decided: readonly (readonly [string, Side])[]) => void;
}

/** Differences that a person has to decide, one by one or all alike. */
export function Conflicts({ conflicts, decisions, onDecide }: ConflictsProps) {
  const decideAll = (side: Side) => onDecide(conflicts.map(({ id }) => [id, side]));
  return (
    <div className={styles.conflicts}>
      <div className={styles.told}>
        <h4>{text.conflicts(conflicts.length)}</h4>
        <p className={styles.hint}>{text.conflictsHint}</p>
      </div>
      {conflicts.length > 1 && (
        <div className={styles.row}>
          <span>{text.all}:</span>
          <Button onClick={() => decideAll('here')}>{text.here}</Button>
          <Button onClick={() => decideAll('there')}>{text.there}</Button>
        </div>
      )}
      {conflicts.map((conflict) => (
        <Conflict
          key={conflict.id}
          conflict={conflict}
          side={decisions.get(conflict.id) ?? null}
          onDecide={(side) => onDecide([[conflict.id, side]])}
        />
      ))}
    </div>
  );
}

interface ConflictProps {
  readonly conflict: MergeConflict;
  readonly side: Side | null;
  readonly onDecide: (side: Side) => void;
}

function Conflict({ conflict, side, onDecide }: ConflictProps) {
  const name = useId();
  const { title, here, there } = wordsOf(conflict);
  const choice = (value: Side, label: string, state: string | null) => (
    <label className={styles.choice}>
      <input type="radio" name={name} checked={side === value} onChange={() => onDecide(value)} />
      <span>{label}</span>
      {state && <span className={styles.hint}>{state}</span>}
    </label>
  );
  return (
    <fieldset className={styles.conflict}>
      <legend>{title}</legend>
      {choice('here', text.here, here)}
      {choice('there', text.there, there)}
    </fieldset>
  );
}

function wordsOf(conflict: MergeConflict): { title: string; here: string | null; there: string | null } {
  switch (conflict.kind) {
    case 'photo':
      return {
        title: text.photo(
          conflict.photo.name,
          conflict.aspects.map((aspect) => text.aspects[aspect]),
        ),
        here: text.photoState(conflict.here),
        there: text.photoState(conflict.there),
      };
    case 'plan':
      return {
        title: text.planConflict(conflict.fields),
        here: text.planState(conflict.here.changedAt),
        there: text.planState(conflict.there.changedAt),
      };
    case 'score':
      return {
        title: text.scoreConflict(conflict.here.variable, conflict.here.plot, conflict.here.ratingDate),
        here: text.scoreState(conflict.here.value),
        there: text.scoreState(conflict.there.value),
      };
    case 'weather':
      return { title: text.weatherConflict(conflict.days), here: null, there: null };
  }
}
