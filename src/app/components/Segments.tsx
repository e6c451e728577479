import { useId } from 'react';
import styles from './Segments.module.css';

interface SegmentsProps<T extends string> {
  readonly label: string;
  readonly value: T;
  readonly choices: readonly (readonly [value: T, words: string])[];
  readonly onChange: (value: T) => void;
}

/** One of a few, all in sight. */
export function Segments<T extends string>({ label, value, choices, onChange }: SegmentsProps<T>) {
  const name = useId();
  return (
    <fieldset className={styles.segments}>
      <legend className="visually-hidden">{label}</legend>
      {choices.map(([choice, words]) => (
        <label key={choice}>
          <input type="radio" name={name} checked={choice === value} onChange={() => onChange(choice)} />
          <span>{words}</span>
        </label>
      ))}
    </fieldset>
  );
}
