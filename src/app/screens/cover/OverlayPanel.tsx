import { useId } from 'react';
import { app } from '../../../core/text/app.ts';
import { NumberField } from '../../components/NumberField.tsx';
import styles from './OverlayPanel.module.css';
import type { Overlay } from './useOverlay.ts';

/** How strongly the classes are laid over the photo, and whether with patterns. */
export function OverlayPanel({ overlay }: { overlay: Overlay }) {
  const id = useId();
  const { on, setOn, opacity, setOpacity, patterns, setPatterns } = overlay;
  const percent = Math.round(opacity * 100);
  return (
    <fieldset className={styles.panel}>
      <legend>{app.cover.overlay}</legend>
      <label className={styles.check}>
        <input type="checkbox" checked={on} onChange={(event) => setOn(event.target.checked)} />
        {app.cover.overlayShown}
      </label>
      <label className={styles.check}>
        <input type="checkbox" checked={patterns} onChange={(event) => setPatterns(event.target.checked)} />
        {app.cover.patterns}
      </label>
      <div className={styles.slider}>
        <label htmlFor={id}>{app.cover.opacity}</label>
        <input
          id={id}
          type="range"
          min="0"
          max="100"
          value={percent}
          disabled={!on}
          onChange={(event) => setOpacity(Number(event.target.value) / 100)}
        />
        <NumberField
          label={app.cover.opacityField}
          hideLabel
          unit={app.cover.percentUnit}
          value={percent}
          least={0}
          most={100}
          onChange={(value) => setOpacity(value! / 100)}
        />
      </div>
    </fieldset>
  );
}
