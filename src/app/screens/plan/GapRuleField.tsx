import { useState } from 'react';
import { classesText as text } from '../../../core/text/classes.ts';
import { type GapRule, LARGEST_GAP_RULE_MM } from '../../../core/trial/trial.ts';
import blocks from '../../components/blocks.module.css';
import { NumberField } from '../../components/NumberField.tsx';
import styles from './ClassesSection.module.css';
import { usePlan } from './planContext.tsx';

/** A circle to begin with: about two leaves wide. */
const FIRST_WIDTH_MM = 10;
const LEAST_WIDTH_MM = 1;

/** What becomes of dark gaps between plants: settled once. */
export function GapRuleField() {
  const { plan, edit } = usePlan();
  const { gapRule } = plan.trial;
  const isCircle = gapRule.kind === 'small-patches-to-surroundings';
  // a question about the change is open while this stands
  const [asked, setAsked] = useState<GapRule | null>(null);
  const keep = async (rule: GapRule) => {
    setAsked(rule);
    await edit((before) => ({ ...before, trial: { ...before.trial, gapRule: rule } }));
    setAsked(null);
  };
  const shown = asked ?? gapRule;
  const width = shown.kind === 'every-pixel' ? FIRST_WIDTH_MM : shown.smallerThanMm;
  const circle = (smallerThanMm: number): GapRule => ({
    kind: 'small-patches-to-surroundings',
    smallerThanMm,
  });
  return (
    <fieldset className={styles.gap}>
      <legend>{text.gapTitle}</legend>
      <label>
        <input
          type="radio"
          name="gap-rule"
          checked={shown.kind === 'every-pixel'}
          onChange={() => void keep({ kind: 'every-pixel' })}
        />
        <span>
          {text.gapEvery}
          <small>{text.gapEveryHint}</small>
        </span>
      </label>
      <label>
        <input
          type="radio"
          name="gap-rule"
          checked={shown.kind !== 'every-pixel'}
          onChange={() => void keep(circle(width))}
        />
        <span>
          {text.gapCircle}
          <small>{text.gapCircleHint}</small>
        </span>
      </label>
      {isCircle && (
        <div className={styles.width}>
          <NumberField
            label={text.gapWidth}
            unit="mm"
            value={width}
            least={LEAST_WIDTH_MM}
            most={LARGEST_GAP_RULE_MM}
            onChange={(value) => value !== null && void keep(circle(value))}
          />
        </div>
      )}
      <p className={blocks.hint}>{text.gapSettle}</p>
    </fieldset>
  );
}
