import { type FormEvent, useState } from 'react';
import { classesText as text } from '../../../core/text/classes.ts';
import { planText } from '../../../core/text/plan.ts';
import {
  CLASS_COLOURS,
  CLASS_KINDS,
  type ClassKind,
  classesLikeColour,
  newCoverClass,
  withClass,
} from '../../../core/trial/classList.ts';
import type { CoverClass } from '../../../core/trial/coverClass.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { ClassSwatch } from '../../components/ClassSwatch.tsx';
import { Dialog } from '../../components/Dialog.tsx';
import { FormField } from '../../components/FormField.tsx';
import { problemWords } from '../../components/formFields.ts';
import styles from './ClassesSection.module.css';
import { changeClasses } from './changeClasses.ts';
import planStyles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';
import { RemoveClass } from './RemoveClass.tsx';

interface ClassDialogProps {
  /** Null makes a new one. */
  readonly coverClass: CoverClass | null;
  readonly onClose: () => void;
}

/** One class: what it is called, its letter and colour, and what it is added to in reports. */
export function ClassDialog({ coverClass, onClose }: ClassDialogProps) {
  const { plan, edit } = usePlan();
  const { classes } = plan.trial;
  const offered = (kind: ClassKind) =>
    newCoverClass(classes, kind, kind === 'other' ? text.otherName : text.kinds[kind]);
  const [kind, setKind] = useState<ClassKind>('green-base-turf');
  const [draft, setDraft] = useState<CoverClass>(() => coverClass ?? offered('green-base-turf'));
  const [removing, setRemoving] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const others = classes.filter(({ id }) => id !== draft.id);
  const sameLetter = others.find(({ key }) => key === draft.key);
  const alike = classesLikeColour(others, draft);
  const place = classes.findIndex(({ id }) => id === draft.id);
  const set = (change: Partial<CoverClass>) => setDraft({ ...draft, ...change });

  const save = async (event: FormEvent) => {
    event.preventDefault();
    if (sameLetter) return;
    const named = { ...draft, name: draft.name.trim() };
    // the id comes from the name it was first given
    const made =
      coverClass || kind !== 'other'
        ? named
        : (({ id }) => ({ ...named, id, reportingGroup: ownGroup(draft) ? id : named.reportingGroup }))(
            newCoverClass(classes, 'other', named.name),
          );
    const result = await edit(changeClasses((before) => withClass(before, made)));
    if (result.ok) onClose();
    else setTrouble(problemWords(text.name, result.problems));
  };
  if (removing && coverClass) return <RemoveClass coverClass={coverClass} onClose={onClose} />;
  return (
    <Dialog title={coverClass ? text.dialogEdit : text.dialogNew} onClose={onClose}>
      <form className={planStyles.form} onSubmit={(event) => void save(event)}>
        <p className={styles.sample}>
          <ClassSwatch coverClass={draft} index={place < 0 ? classes.length : place} />
          {draft.name}
        </p>
        {!coverClass && (
          <FormField
            label={text.kind}
            value={kind}
            choices={CLASS_KINDS.map((one) => [one, text.kinds[one]] as const)}
            onChange={(value) => {
              setKind(value as ClassKind);
              setDraft(offered(value as ClassKind));
            }}
            hint={text.newClassHint}
          />
        )}
        <FormField
          label={text.name}
          value={draft.name}
          onChange={(name) => set({ name })}
          problem={trouble}
          required
        />
        <FormField
          label={text.letter}
          value={draft.key}
          onChange={(typed) => set({ key: typed.trim().slice(-1).toUpperCase() })}
          problem={sameLetter ? text.letterTaken(sameLetter.name) : null}
          hint={text.letterHint}
          required
        />
        <FormField
          label={text.group}
          value={ownGroup(draft) ? '' : draft.reportingGroup}
          choices={[
            ['', text.ownGroup],
            ...others.filter(ownGroup).map(({ id, name }) => [id, text.addedTo(name)] as const),
          ]}
          onChange={(group) => set({ reportingGroup: group === '' ? draft.id : group })}
          hint={text.groupHint}
        />
        <fieldset className={styles.colours}>
          <legend>{text.colour}</legend>
          <div>
            {CLASS_COLOURS.map((colour, index) => (
              <label key={colour}>
                <input
                  type="radio"
                  name="colour"
                  aria-label={text.colourNumber(index + 1)}
                  checked={draft.colour === colour}
                  onChange={() => set({ colour })}
                />
                <span style={{ backgroundColor: colour }} />
              </label>
            ))}
            <label className={styles.own}>
              <input
                type="color"
                value={draft.colour}
                onChange={(event) => set({ colour: event.target.value })}
              />
              {text.ownColour}
            </label>
          </div>
          <p className={blocks.hint} role="status">
            {alike.length > 0 && text.alike(alike.map(({ name }) => name))}
          </p>
        </fieldset>
        <div className={planStyles.actions}>
          {coverClass && (
            <Button className={styles.remove!} onClick={() => setRemoving(true)}>
              {text.remove}
            </Button>
          )}
          <Button onClick={onClose}>{planText.cancel}</Button>
          <Button look="main" type="submit" disabled={draft.name.trim() === '' || sameLetter !== undefined}>
            {text.save}
          </Button>
        </div>
      </form>
    </Dialog>
  );
}

const ownGroup = ({ id, reportingGroup }: CoverClass): boolean => reportingGroup === id;
