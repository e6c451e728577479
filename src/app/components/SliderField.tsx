import { useId } from 'react';
import { NumberField } from './NumberField.tsx';
import styles from './SliderField.module.css';

interface SliderFieldProps {
  readonly words: string;
  /** Name of the number's field, which stands beside the slider. */
  readonly field: string;
  readonly unit: string;
  readonly least: number;
  readonly most: number;
  /** @default 1 */
  readonly step?: number;
  readonly value: number;
  readonly disabled?: boolean;
  readonly onChange: (value: number) => void;
}

/** A number that can be dragged, and typed beside it. */
export function SliderField(props: SliderFieldProps) {
  const { words, field, unit, least, most, step = 1, value, disabled = false, onChange } = props;
  const id = useId();
  return (
    <div className={styles.slider}>
      <label htmlFor={id}>{words}</label>
      <input
        id={id}
        type="range"
        min={least}
        max={most}
        step={step}
        value={value}
        disabled={disabled}
        onChange={(event) => onChange(Number(event.target.value))}
      />
      <NumberField
        label={field}
        hideLabel
        unit={unit}
        value={value}
        least={least}
        most={most}
        onChange={(typed) => onChange(typed!)}
      />
    </div>
  );
}
