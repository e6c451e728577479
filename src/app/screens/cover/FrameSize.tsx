import { useState } from 'react';
import type { PlotFrame } from '../../../core/geometry/plotFrame.ts';
import { app } from '../../../core/text/app.ts';
import { area } from '../../../core/text/area.ts';
import { Button } from '../../components/Button.tsx';
import { NumberField } from '../../components/NumberField.tsx';
import styles from './FramePanel.module.css';

const LEAST_MM = 10;
const MOST_MM = 20_000;

interface FrameSizeProps {
  readonly sizeMm: PlotFrame['sizeMm'];
  readonly ratingDate: string | null;
  readonly onChange: (sizeMm: PlotFrame['sizeMm']) => void;
  /** The size is that of all frames of the rating date, also of those still to be found. */
  readonly onForDate: (sizeMm: readonly [number, number]) => void;
}

/** The frame's inner size, known in both directions or in none. */
export function FrameSize({ sizeMm, ratingDate, onChange, onForDate }: FrameSizeProps) {
  const [width, setWidth] = useState<number | null>(sizeMm?.[0] ?? null);
  const [height, setHeight] = useState<number | null>(sizeMm?.[1] ?? null);
  const change = (w: number | null, h: number | null) => {
    setWidth(w);
    setHeight(h);
    if (w !== null && h !== null) onChange([w, h]);
    if (w === null && h === null) onChange(null);
  };
  const limits = { unit: app.frame.millimetres, least: LEAST_MM, most: MOST_MM, optional: true };
  const half = (width === null) !== (height === null);
  return (
    <fieldset className={styles.size}>
      <legend>{app.frame.size}</legend>
      <NumberField label={app.frame.width} {...limits} value={width} onChange={(w) => change(w, height)} />
      <NumberField label={app.frame.height} {...limits} value={height} onChange={(h) => change(width, h)} />
      {sizeMm && ratingDate && (
        <Button className={styles.wide} onClick={() => onForDate(sizeMm)}>
          {area.sizeForDate(ratingDate)}
        </Button>
      )}
      <p className={half ? styles.wrong : styles.soft}>{half ? app.frame.sizeBoth : app.frame.sizeHint}</p>
    </fieldset>
  );
}
