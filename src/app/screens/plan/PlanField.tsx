import { useRef, useState } from 'react';
import { usLength } from '../../../core/text/units.ts';
import { FormField } from '../../components/FormField.tsx';
import { millimetresOf, numberOf, problemWords } from '../../components/formFields.ts';
import { usePlan } from './planContext.tsx';
import { type PlanPath, setAt, valueAt } from './planPath.ts';

interface PlanFieldProps {
  readonly label: string;
  readonly path: PlanPath;
  readonly kind?: 'text' | 'date' | 'number' | 'notes';
  readonly choices?: readonly (readonly [value: string, words: string])[];
  /** What an empty field means: null for "unknown", else the empty text. @default null for days and numbers, else '' */
  readonly empty?: null | '';
  /** What the plan as a whole has to say about this field. */
  readonly remark?: string | null | undefined;
  readonly hint?: string | undefined;
  readonly hideLabel?: boolean;
  readonly narrow?: boolean;
}

/** A field of the plan: stored when the person is done with it; what cannot be stays in the field with the reason. */
export function PlanField({ label, path, kind = 'text', choices, remark, ...rest }: PlanFieldProps) {
  const { plan, edit } = usePlan();
  const [draft, setDraft] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const stored = valueAt(plan, path);
  const isLength = String(path.at(-1)).endsWith('Mm');
  // Enter keeps, and so does leaving the field, which a question about the change may cause
  const keeping = useRef(false);
  const { empty = kind === 'text' || kind === 'notes' ? '' : null, ...looks } = rest;

  const keep = async (typed: string) => {
    const trimmed = typed.trim();
    const read = isLength ? millimetresOf : numberOf;
    const value = trimmed === '' ? empty : kind === 'number' ? read(typed) : trimmed;
    if (value === stored) return forget();
    if (keeping.current) return;
    keeping.current = true;
    const result = await edit((before) => setAt(before, path, value));
    keeping.current = false;
    if (result.ok) forget();
    else setProblem(problemWords(label, result.problems));
  };
  const forget = () => {
    setDraft(null);
    setProblem(null);
  };
  return (
    <FormField
      {...looks}
      label={label}
      kind={kind}
      {...(isLength && typeof stored === 'number' && { hint: usLength(stored) ?? undefined })}
      {...(choices && { choices })}
      value={draft ?? (stored === null || stored === undefined ? '' : String(stored))}
      problem={problem ?? remark ?? null}
      onChange={(value) => {
        setDraft(value);
        if (choices) void keep(value);
      }}
      {...(!choices && { onDone: () => draft !== null && void keep(draft), onUndo: forget })}
    />
  );
}
