import { type KeyboardEvent, useId, useState } from 'react';
import { app } from '../../core/text/app.ts';
import { formatLength } from '../../core/text/format.ts';
import { usLength } from '../../core/text/units.ts';
import { typedMillimetres } from '../../core/trial/typedMeasure.ts';
import styles from './NumberField.module.css';
import { parseNumber } from './parseNumber.ts';

interface NumberFieldProps {
  readonly label: string;
  readonly unit: string;
  /** null shows an empty field. */
  readonly value: number | null;
  readonly least: number;
  readonly most: number;
  /** Whether the field may be left empty. @default false */
  readonly optional?: boolean;
  /** Called with a value in range when the person is done with the field. */
  readonly onChange: (value: number | null) => void;
  /** Whether the label is only spoken, because a heading says it already. @default false */
  readonly hideLabel?: boolean;
}

/** A number that can be typed, with a comma or a point and a length with another unit too, or moved by the arrow keys (Shift: ten at a time). */
export function NumberField(props: NumberFieldProps) {
  const { label, unit, value, least, most, optional = false, onChange, hideLabel = false } = props;
  const [draft, setDraft] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const id = useId();
  const shown = draft ?? (value === null ? '' : formatLength(value));

  const beside = unit === app.frame.millimetres && value !== null ? usLength(value) : null;

  const finish = () => {
    if (draft === null) return;
    const millimetres = unit === app.frame.millimetres ? typedMillimetres(draft) : null;
    const parsed = parseNumber(millimetres === null ? draft : String(millimetres), { least, most, optional });
    if (parsed.ok) {
      setDraft(null);
      setProblem(null);
      if (parsed.value !== value) onChange(parsed.value);
    } else {
      setProblem(
        parsed.code === 'not-a-number'
          ? app.frame.notNumber(draft)
          : app.frame.outOfRange(draft, least, most),
      );
    }
  };

  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter') finish();
    if (event.key === 'Escape' && draft !== null) {
      event.stopPropagation();
      setDraft(null);
      setProblem(null);
    }
    const step = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    if (step === undefined || value === null || draft !== null) return;
    event.preventDefault();
    const next = value + step * (event.shiftKey ? 10 : 1);
    onChange(Math.min(most, Math.max(least, next)));
  };

  return (
    <div className={styles.field}>
      <label htmlFor={id} className={hideLabel ? 'visually-hidden' : undefined}>
        {label}
      </label>
      <span className={styles.box}>
        <input
          id={id}
          inputMode="decimal"
          autoComplete="off"
          value={shown}
          aria-invalid={problem !== null}
          aria-describedby={problem ? `${id}-problem` : undefined}
          onChange={(event) => setDraft(event.target.value)}
          onBlur={finish}
          onKeyDown={onKeyDown}
        />
        <span aria-hidden="true">{beside === null ? unit : `${unit}, ${beside}`}</span>
      </span>
      {problem && (
        <p id={`${id}-problem`} className={styles.problem} role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}
