import { useId } from 'react';
import styles from './Field.module.css';

interface FieldProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  /** Makes it a choice of a few. */
  readonly choices?: readonly (readonly [value: string, words: string])[];
  readonly hint?: string;
  readonly problem?: string | null;
  /** Whole numbers are typed on the digits of a phone. @default false */
  readonly digits?: boolean;
}

/** One labelled field: a line of text, digits, or a choice. */
export function Field({ label, value, onChange, choices, hint, problem, digits = false }: FieldProps) {
  const id = useId();
  const shared = {
    id,
    value,
    'aria-invalid': Boolean(problem),
    'aria-describedby': problem || hint ? `${id}-more` : undefined,
  };
  return (
    <div className={styles.field}>
      <label htmlFor={id}>{label}</label>
      {choices ? (
        <select {...shared} onChange={(event) => onChange(event.target.value)}>
          {choices.map(([choice, words]) => (
            <option key={choice} value={choice}>
              {words}
            </option>
          ))}
        </select>
      ) : (
        <input
          {...shared}
          inputMode={digits ? 'numeric' : undefined}
          maxLength={60}
          autoComplete="off"
          onChange={(event) => onChange(event.target.value)}
        />
      )}
      {(problem || hint) && (
        <p
          id={`${id}-more`}
          className={problem ? styles.problem : styles.hint}
          role={problem ? 'alert' : undefined}
        >
          {problem || hint}
        </p>
      )}
    </div>
  );
}
