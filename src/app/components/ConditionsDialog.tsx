import { useState } from 'react';
import { planText } from '../../core/text/plan.ts';
import { checkRecord } from '../../core/trial/checkRecord.ts';
import type { FieldProblem } from '../../core/trial/fieldProblem.ts';
import { type Rating, ratingConditionsSchema } from '../../core/trial/rating.ts';
import type { EditPlan } from '../session/trialState.ts';
import { Button } from './Button.tsx';
import styles from './ConditionsDialog.module.css';
import { Dialog } from './Dialog.tsx';
import { FormField } from './FormField.tsx';
import { numberOf, problemWords } from './formFields.ts';

const text = planText.conditions;

const FIELDS = [
  'daysSinceMowing',
  'dew',
  'frost',
  'sky',
  'turfGrowthStage',
  'weedGrowthStage',
  'device',
  'notes',
] as const;
type Field = (typeof FIELDS)[number];

interface ConditionsDialogProps {
  readonly rating: Rating;
  readonly edit: EditPlan;
  readonly onClose: () => void;
}

/** How turf and light were on a rating date, noted once for all plots. */
export function ConditionsDialog({ rating, edit, onClose }: ConditionsDialogProps) {
  const [form, setForm] = useState<Readonly<Record<Field, string>>>(
    () =>
      Object.fromEntries(FIELDS.map((name) => [name, String(rating.conditions?.[name] ?? '')])) as Record<
        Field,
        string
      >,
  );
  const [problems, setProblems] = useState<readonly FieldProblem[]>([]);
  const save = async () => {
    const words = (value: string) => value.trim() || null;
    const yesOrNo = (value: string) => (value === '' ? null : value === 'true');
    const checked = checkRecord(ratingConditionsSchema, {
      daysSinceMowing: numberOf(form.daysSinceMowing),
      dew: yesOrNo(form.dew),
      frost: yesOrNo(form.frost),
      sky: words(form.sky),
      turfGrowthStage: words(form.turfGrowthStage),
      weedGrowthStage: words(form.weedGrowthStage),
      device: words(form.device),
      notes: form.notes.trim(),
    });
    if (!checked.ok) return setProblems(checked.problems);
    const result = await edit((before) => ({
      ...before,
      ratings: before.ratings.map((one) =>
        one.id === rating.id ? { ...one, conditions: checked.value } : one,
      ),
    }));
    if (result.ok) onClose();
    else setProblems(result.problems);
  };
  return (
    <Dialog title={text.title(rating.id)} onClose={onClose}>
      <form
        className={styles.form}
        onSubmit={(event) => {
          event.preventDefault();
          void save();
        }}
      >
        <div className={styles.fields}>
          {FIELDS.map((name) => (
            <FormField
              key={name}
              label={text.labels[name]}
              kind={name === 'notes' ? 'notes' : name === 'daysSinceMowing' ? 'number' : 'text'}
              {...(name in text.choices && {
                choices: Object.entries(text.choices[name as keyof typeof text.choices]),
              })}
              value={form[name]}
              onChange={(value) => setForm({ ...form, [name]: value })}
              problem={problemWords(text.labels[name], problems, name)}
            />
          ))}
        </div>
        <div className={styles.actions}>
          <Button onClick={onClose}>{planText.cancel}</Button>
          <Button look="main" type="submit">
            {planText.save}
          </Button>
        </div>
      </form>
    </Dialog>
  );
}
