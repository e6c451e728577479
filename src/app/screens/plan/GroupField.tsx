import { useRef, useState } from 'react';
import { usLength } from '../../../core/text/units.ts';
import blocks from '../../components/blocks.module.css';
import { FormField } from '../../components/FormField.tsx';
import { millimetresOf, numberOf, problemWords } from '../../components/formFields.ts';
import styles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';
import { type PlanPath, setAt, valueAt } from './planPath.ts';

interface GroupFieldProps {
  readonly path: PlanPath;
  readonly fields: readonly {
    readonly name: string;
    readonly label: string;
    readonly kind: 'text' | 'number';
  }[];
  /** Said while some of them are filled in and some are not. */
  readonly half: string;
  readonly hint?: string | undefined;
}

const isLength = (name: string) => name.endsWith('Mm');
const readOf = (name: string) => (isLength(name) ? millimetresOf : numberOf);

/** A stored length in the other units, where they are asked for. */
const lengthHint = (name: string, stored: unknown) =>
  isLength(name) && typeof stored === 'number' ? (usLength(stored) ?? undefined) : undefined;

/** Fields that mean something only together, such as an amount and its unit: stored when all are filled in or empty. */
export function GroupField({ path, fields, half, hint }: GroupFieldProps) {
  const { plan, edit } = usePlan();
  const [drafts, setDrafts] = useState<Readonly<Record<string, string>> | null>(null);
  const [problems, setProblems] = useState<Readonly<Record<string, string | null>>>({});
  const [incomplete, setIncomplete] = useState(false);
  // Enter keeps, and so does leaving the field
  const keeping = useRef(false);
  const stored = (valueAt(plan, path) ?? {}) as Record<string, unknown>;
  const shown = (name: string) => drafts?.[name] ?? (stored[name] === undefined ? '' : String(stored[name]));

  const keep = async () => {
    if (drafts === null) return;
    const filled = fields.filter(({ name }) => shown(name).trim() !== '');
    setIncomplete(filled.length > 0 && filled.length < fields.length);
    if (filled.length > 0 && filled.length < fields.length) return;
    const value =
      filled.length === 0
        ? null
        : Object.fromEntries(
            fields.map(({ name, kind }) => [
              name,
              kind === 'number' ? readOf(name)(shown(name)) : shown(name).trim(),
            ]),
          );
    if (keeping.current) return;
    keeping.current = true;
    const result = await edit((before) => setAt(before, path, value));
    keeping.current = false;
    if (result.ok) {
      setDrafts(null);
      setProblems({});
      return;
    }
    setProblems(
      Object.fromEntries(
        fields.map(({ name, label }) => [
          name,
          problemWords(
            label,
            result.problems.filter(({ field }) => field.endsWith(`.${name}`)),
          ),
        ]),
      ),
    );
  };
  return (
    <div className={styles.together}>
      <div className={blocks.fields}>
        {fields.map(({ name, label, kind }) => (
          <FormField
            key={name}
            label={label}
            kind={kind}
            value={shown(name)}
            hint={lengthHint(name, stored[name])}
            problem={problems[name] ?? null}
            onChange={(value) => setDrafts({ ...drafts, [name]: value })}
            onDone={() => void keep()}
            onUndo={() => {
              setDrafts(null);
              setProblems({});
              setIncomplete(false);
            }}
          />
        ))}
      </div>
      {incomplete ? (
        <p className={styles.trouble} role="status">
          {half}
        </p>
      ) : (
        hint && <p className={blocks.hint}>{hint}</p>
      )}
    </div>
  );
}
