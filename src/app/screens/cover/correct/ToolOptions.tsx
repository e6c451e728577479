import { useId } from 'react';
import { AUTOMATIC } from '../../../../core/mask/correctionLayer.ts';
import { correct } from '../../../../core/text/correct.ts';
import { Button } from '../../../components/Button.tsx';
import blocks from '../../../components/blocks.module.css';
import { Segments } from '../../../components/Segments.tsx';
import { SliderField } from '../../../components/SliderField.tsx';
import type { CorrectingState } from '../../../session/correcting/correctingState.ts';
import type { Correcting } from '../../../session/correcting.ts';
import { useObservable } from '../../../session/useSession.tsx';
import styles from './CorrectPanel.module.css';
import { LARGEST_SMOOTHING_PX, LARGEST_TOLERANCE, type RadiusUnit, type Tools } from './useTools.ts';

interface ToolOptionsProps {
  readonly tools: Tools;
  readonly correcting: Correcting;
  readonly state: CorrectingState;
  /** In class order. */
  readonly names: readonly string[];
  readonly hasScale: boolean;
}

/** What the chosen tool can be set to. */
export function ToolOptions({ tools, correcting, state, names, hasScale }: ToolOptionsProps) {
  const { tool } = tools;
  if (tool === 'move') return null;
  const isSmoothing = tool === 'outline' && tools.outlineAction === 'smooth';
  return (
    <div className={styles.options}>
      {tool === 'brush' && (
        <>
          {hasScale && (
            <Segments<RadiusUnit>
              label={correct.unit}
              value={tools.unit}
              choices={[
                ['px', 'px'],
                ['mm', 'mm'],
              ]}
              onChange={tools.setUnit}
            />
          )}
          <SliderField
            words={correct.size}
            field={correct.sizeField(tools.unit)}
            unit={tools.unit}
            least={1}
            most={tools.largestRadius}
            value={tools.radius}
            onChange={tools.setRadius}
          />
        </>
      )}
      {tool === 'outline' && <OutlineOptions tools={tools} />}
      {tool === 'patch' && <p className={styles.soft}>{correct.patchHint}</p>}
      {tool === 'likeness' && <LikenessOptions tools={tools} state={state} />}
      {!isSmoothing && <OnlyOver tools={tools} correcting={correcting} names={names} disabled={state.busy} />}
    </div>
  );
}

function OutlineOptions({ tools }: { tools: Tools }) {
  const points = useObservable(tools.outline);
  return (
    <>
      <Segments
        label={correct.outlineDoes}
        value={tools.outlineAction}
        choices={[
          ['paint', correct.paintInside],
          ['smooth', correct.smoothInside],
        ]}
        onChange={tools.setOutlineAction}
      />
      {tools.outlineAction === 'smooth' && (
        <>
          <SliderField
            words={correct.smoothRadius}
            field={correct.smoothRadius}
            unit="px"
            least={1}
            most={LARGEST_SMOOTHING_PX}
            value={tools.smoothingPx}
            onChange={tools.setSmoothingPx}
          />
          <p className={styles.soft}>{correct.smoothHint}</p>
        </>
      )}
      {points.length === 0 ? (
        <p className={styles.soft}>{correct.outlineHint}</p>
      ) : (
        <div className={styles.actions}>
          <Button look="main" disabled={points.length < 3} onClick={tools.closeOutline}>
            {correct.closeOutline}
          </Button>
          <Button onClick={tools.giveUp}>{correct.dropOutline}</Button>
        </div>
      )}
    </>
  );
}

function LikenessOptions({ tools, state }: { tools: Tools; state: CorrectingState }) {
  const { preview } = state;
  return (
    <>
      <SliderField
        words={correct.tolerance}
        field={correct.tolerance}
        unit={correct.toleranceUnit}
        least={1}
        most={LARGEST_TOLERANCE}
        step={0.5}
        value={tools.tolerance}
        onChange={tools.setTolerance}
      />
      <label className={blocks.check}>
        <input
          type="checkbox"
          checked={tools.stopsAtEdges}
          onChange={({ target }) => tools.setStopsAtEdges(target.checked)}
        />
        {correct.stopsAtEdges}
      </label>
      {preview ? (
        <div className={styles.actions}>
          <Button look="main" onClick={() => tools.applyLikeness()}>
            {correct.apply}
          </Button>
          <Button onClick={tools.giveUp}>{correct.cancel}</Button>
          <span role="status">{correct.covers(preview.pixels)}</span>
        </div>
      ) : (
        <p className={styles.soft}>{correct.likenessHint}</p>
      )}
    </>
  );
}

interface OnlyOverProps {
  readonly tools: Tools;
  readonly correcting: Correcting;
  readonly names: readonly string[];
  readonly disabled: boolean;
}

function OnlyOver({ tools, correcting, names, disabled }: OnlyOverProps) {
  const id = useId();
  const { onlyOver, label } = tools;
  return (
    <>
      <div className={styles.field}>
        <label htmlFor={id}>{correct.onlyOver}</label>
        <select
          id={id}
          value={onlyOver ?? ''}
          onChange={({ target }) => tools.setOnlyOver(target.value === '' ? null : Number(target.value))}
        >
          <option value="">{correct.anyClass}</option>
          {names.map((name, index) => (
            <option key={name} value={index + 1}>
              {name}
            </option>
          ))}
        </select>
      </div>
      {onlyOver !== null && onlyOver !== label && (
        <Button
          look="quiet"
          className={styles.quiet}
          disabled={disabled}
          onClick={() => correcting.changeEverywhere(onlyOver, label)}
        >
          {correct.changeEverywhere(
            names[onlyOver - 1]!,
            label === AUTOMATIC ? correct.asComputed : names[label - 1]!,
          )}
        </Button>
      )}
    </>
  );
}
