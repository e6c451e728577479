import { useId } from 'react';
import styles from './FormField.module.css';

interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly number?: boolean;
  readonly hint?: string;
  readonly problem?: string | null;
  readonly required?: boolean;
}

/** A labelled line of text or a number as text, with its hint or problem below. */
export function TextField(props: TextFieldProps) {
  const { label, value, onChange, number = false, hint, problem = null, required = false } = props;
  const id = useId();
  const more = problem ?? hint;
  return (
    <div className={styles.field}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        value={value}
        required={required}
        inputMode={number ? 'decimal' : undefined}
        autoComplete="off"
        aria-invalid={problem !== null}
        aria-describedby={more ? `${id}-more` : undefined}
        onChange={(event) => onChange(event.target.value)}
      />
      {more && (
        <p
          id={`${id}-more`}
          className={problem === null ? styles.hint : styles.problem}
          role={problem === null ? undefined : 'alert'}
        >
          {more}
        </p>
      )}
    </div>
  );
}
