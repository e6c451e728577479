import { app } from '../../../core/text/app.ts';
import blocks from '../../components/blocks.module.css';
import { SliderField } from '../../components/SliderField.tsx';
import styles from './OverlayPanel.module.css';
import type { Overlay } from './useOverlay.ts';

/** How strongly the classes are laid over the photo, and whether with patterns. */
export function OverlayPanel({ overlay }: { overlay: Overlay }) {
  const { on, setOn, opacity, setOpacity, patterns, setPatterns } = overlay;
  const percent = Math.round(opacity * 100);
  return (
    <fieldset className={styles.panel}>
      <legend>{app.cover.overlay}</legend>
      <label className={blocks.check}>
        <input type="checkbox" checked={on} onChange={(event) => setOn(event.target.checked)} />
        {app.cover.overlayShown}
      </label>
      <label className={blocks.check}>
        <input type="checkbox" checked={patterns} onChange={(event) => setPatterns(event.target.checked)} />
        {app.cover.patterns}
      </label>
      <SliderField
        words={app.cover.opacity}
        field={app.cover.opacityField}
        unit={app.cover.percentUnit}
        least={0}
        most={100}
        value={percent}
        disabled={!on}
        onChange={(value) => setOpacity(value / 100)}
      />
    </fieldset>
  );
}
