import { type KeyboardEvent, useId } from 'react';
import styles from './FormField.module.css';

interface FormFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  /** Called when the person is done with the field. */
  readonly onDone?: () => void;
  /** Called when the person takes back what was typed. */
  readonly onUndo?: () => void;
  /** @default 'text' */
  readonly kind?: 'text' | 'date' | 'number' | 'digits' | 'notes';
  /** Makes it a choice of a few; a value of '' stands for none. */
  readonly choices?: readonly (readonly [value: string, words: string])[];
  /** What is wrong with it, or asked about it. */
  readonly problem?: string | null;
  readonly hint?: string | undefined;
  readonly required?: boolean;
  /** Most characters that can be typed. */
  readonly longest?: number;
  /** Whether the label is only spoken, because a heading says it already. @default false */
  readonly hideLabel?: boolean;
  readonly narrow?: boolean;
}

/** One labelled field: text, day, number, digits, notes or a choice, with its problem beside it. */
export function FormField(props: FormFieldProps) {
  const { label, value, onChange, onDone, onUndo, kind = 'text', choices, problem, hint } = props;
  const id = useId();
  const shared = {
    id,
    value,
    required: props.required,
    'aria-invalid': Boolean(problem),
    'aria-describedby': problem || hint ? `${id}-more` : undefined,
    onBlur: onDone,
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter' && onDone) onDone();
    if (event.key === 'Escape' && onUndo) {
      event.stopPropagation();
      onUndo();
    }
  };
  return (
    <div className={`${styles.field} ${props.narrow ? styles.narrow : ''}`}>
      <label htmlFor={id} className={props.hideLabel ? 'visually-hidden' : undefined}>
        {label}
      </label>
      {choices ? (
        <select {...shared} onChange={(event) => onChange(event.target.value)}>
          {choices.map(([choice, words]) => (
            <option key={choice} value={choice}>
              {words}
            </option>
          ))}
        </select>
      ) : kind === 'notes' ? (
        <textarea {...shared} rows={2} onChange={(event) => onChange(event.target.value)} />
      ) : (
        <input
          {...shared}
          type={kind === 'date' ? 'date' : 'text'}
          {...(kind === 'date' && { min: '1950-01-01', max: '2149-12-31' })}
          inputMode={kind === 'number' ? 'decimal' : kind === 'digits' ? 'numeric' : undefined}
          maxLength={props.longest}
          autoComplete="off"
          onChange={(event) => onChange(event.target.value)}
          onKeyDown={onKeyDown}
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
