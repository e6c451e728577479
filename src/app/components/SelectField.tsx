import { useId } from 'react';
import styles from './FormField.module.css';

interface SelectFieldProps<T extends string> {
  readonly label: string;
  readonly value: T;
  readonly choices: readonly (readonly [value: T, words: string])[];
  readonly onChange: (value: T) => void;
}

/** One of several, too many to stand side by side. */
export function SelectField<T extends string>({ label, value, choices, onChange }: SelectFieldProps<T>) {
  const id = useId();
  return (
    <div className={styles.field}>
      <label htmlFor={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onChange(event.target.value as T)}>
        {choices.map(([choice, words]) => (
          <option key={choice} value={choice}>
            {words}
          </option>
        ))}
      </select>
    </div>
  );
}
